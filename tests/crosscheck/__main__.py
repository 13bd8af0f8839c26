"""python tests/crosscheck PROGRAM [PART OF A NAME...]: PROGRAM is the built example `mechanics-cases`."""

import concurrent.futures
import importlib
import os
import pkgutil
import sys
import warnings

# one thread a process: the checks themselves run side by side
for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(name, "1")
os.environ.setdefault("MPLBACKEND", "Agg")

import harness  # noqa: E402
import subjects  # noqa: E402


def load() -> None:
    """Every file of `subjects`, in the order of their names."""
    warnings.simplefilter("ignore")
    for module in sorted(m.name for m in pkgutil.iter_modules(subjects.__path__)):
        importlib.import_module(f"subjects.{module}")


def main() -> int:
    program, *parts = sys.argv[1:]
    load()
    wanted = [
        i for i, c in enumerate(harness.REGISTRY) if not parts or any(p in f"{c.function} {c.library}" for p in parts)
    ]
    workers = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else (os.cpu_count() or 1)
    with concurrent.futures.ProcessPoolExecutor(workers, initializer=load) as pool:
        outcomes = list(pool.map(harness.run, [program] * len(wanted), wanted))
    return 0 if harness.report(outcomes) or parts and not any(o.missed for o in outcomes) else 1


if __name__ == "__main__":
    sys.exit(main())
