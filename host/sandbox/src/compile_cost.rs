//! What a component would cost to compile, told from its code before the compiler sees it.
//!
//! The compiler is no sandbox: its time and its memory grow with the square of what stands in one function, so a file
//! of a hundred kilobytes can take minutes and gigabytes. Every limit here is far over what compilers write, an
//! interpreter's great loop included, and was set where compiling takes some hundred megabytes (measured on wasmtime
//! 48).

use super::fault::PackFaultKind;
use wasmparser::{BlockType, FunctionBody, Operator, Parser, Payload, TypeRef};

/// Functions of all modules together; an interpreter with its library has some twenty thousand.
const FUNCTIONS: usize = 50_000;
/// Bytes of one function.
const BYTES: usize = 512 * 1024;
/// Blocks, loops and branches within one another.
const DEPTH: usize = 4_000;
/// Targets of all the jump tables of one function.
const TARGETS: usize = 20_000;
/// Variables of one function times its blocks: a variable can have a value of its own in each.
const VARIABLES: usize = 20_000_000;
/// Values that one function hands to calls and blocks, and takes from them.
const HANDED: usize = 1_000_000;

/// Refuses a component with a function that no hand and no compiler writes.
pub(super) fn refuse_too_costly(bytes: &[u8]) -> Result<(), PackFaultKind> {
    let damaged = |e: wasmparser::BinaryReaderError| PackFaultKind::Damaged(e.message().to_owned());
    let mut module = Module::default();
    let mut functions = 0;
    for payload in Parser::new(0).parse_all(bytes) {
        match payload.map_err(damaged)? {
            Payload::Version { .. } => module = Module::default(),
            Payload::TypeSection(types) => {
                for ty in types.into_iter_err_on_gc_types() {
                    let ty = ty.map_err(damaged)?;
                    module.types.push((ty.params().len(), ty.results().len()));
                }
            }
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    if let TypeRef::Func(ty) = import.map_err(damaged)?.ty {
                        module.functions.push(ty);
                    }
                }
            }
            Payload::FunctionSection(section) => {
                for ty in section {
                    module.functions.push(ty.map_err(damaged)?);
                }
            }
            Payload::CodeSectionEntry(body) => {
                functions += 1;
                if functions > FUNCTIONS {
                    return Err(PackFaultKind::TooHeavy(format!("it has more than {FUNCTIONS} functions")));
                }
                module.function(&body, functions)?;
            }
            _ => {}
        }
    }
    Ok(())
}

/// What the functions of a module can name: its types with their parameters and results, and the type of each function.
#[derive(Default)]
struct Module {
    types: Vec<(usize, usize)>,
    functions: Vec<u32>,
}

/// What was counted of one function.
#[derive(Default)]
struct Tally {
    depth: usize,
    deepest: usize,
    blocks: usize,
    targets: usize,
    handed: usize,
}

impl Module {
    fn function(&self, body: &FunctionBody<'_>, number: usize) -> Result<(), PackFaultKind> {
        let damaged = |e: wasmparser::BinaryReaderError| PackFaultKind::Damaged(e.message().to_owned());
        let heavy = |what: &str, most: usize| {
            Err(PackFaultKind::TooHeavy(format!("its function {number} has more than {most} {what}")))
        };
        if body.range().len() > BYTES {
            return heavy("bytes", BYTES);
        }
        let mut variables = 0_usize;
        for group in body.get_locals_reader().map_err(damaged)? {
            variables = variables.saturating_add(group.map_err(damaged)?.0 as usize);
        }
        let mut tally = Tally::default();
        for operator in body.get_operators_reader().map_err(damaged)? {
            self.count(&operator.map_err(damaged)?, &mut tally);
        }
        if tally.deepest > DEPTH {
            heavy("blocks within one another", DEPTH)
        } else if tally.targets > TARGETS {
            heavy("targets in its jump tables", TARGETS)
        } else if variables.saturating_mul(tally.blocks) > VARIABLES {
            heavy("variables times blocks", VARIABLES)
        } else if tally.handed > HANDED {
            heavy("values handed to calls and blocks", HANDED)
        } else {
            Ok(())
        }
    }

    fn count(&self, operator: &Operator<'_>, tally: &mut Tally) {
        let handed = |ty: u32| self.types.get(ty as usize).map_or(0, |(params, results)| params + results);
        let more = match operator {
            Operator::Block { blockty } | Operator::Loop { blockty } | Operator::If { blockty } => {
                tally.depth += 1;
                tally.deepest = tally.deepest.max(tally.depth);
                tally.blocks += 1;
                match blockty {
                    BlockType::FuncType(ty) => handed(*ty),
                    _ => 0,
                }
            }
            Operator::End => {
                tally.depth = tally.depth.saturating_sub(1);
                0
            }
            Operator::BrTable { targets } => {
                tally.targets = tally.targets.saturating_add(targets.len() as usize);
                0
            }
            Operator::Br { .. } | Operator::BrIf { .. } | Operator::Else => {
                tally.blocks += 1;
                0
            }
            Operator::Call { function_index } => {
                self.functions.get(*function_index as usize).map_or(0, |ty| handed(*ty))
            }
            Operator::CallIndirect { type_index, .. } => handed(*type_index),
            _ => 0,
        };
        tally.handed = tally.handed.saturating_add(more);
    }
}
