// Ring gaps of an invented shop, in JavaScript. build.mjs puts MANIFEST, the text of manifest.json, before this.
// The figures are invented.

const [USE, ADDER, BORE, BORES, MATERIAL, CARD, CLOSING, POWER] = [0, 1, 2, 3, 4, 5, 6, 7]; // the manifest's `facts`
const TOP_GAP = 0; // the manifest's `rules`
const STREET = 0, ALL_OUT = 2, IRON = 0;
// the reason that the limits cross: the last of a window rule's `reasons`
const CROSSED = 2;

export const pack = {
  describe: () => MANIFEST,

  assess(ask, { starts, values }) {
    const facts = {
      all: (fact) => values.subarray(starts[fact], starts[fact + 1]),
      // the first value that is there
      get: (fact) => facts.all(fact).find((v) => !Number.isNaN(v)),
      // a choice's number, undefined where the sheet has none that the manifest lists
      choice: (fact) => (facts.get(fact) >= 0 ? facts.get(fact) : undefined),
    };
    const answer = { outcomes: [], windows: [], findings: [], services: [], steps: [], numbers: [] };
    for (const rule of ask) {
      try {
        const [state, reason = 0] = (rule === TOP_GAP ? topGap : plainIron)(rule, facts, answer);
        answer.outcomes.push({ rule, state, reason });
      } catch (error) {
        throw inWords(rule, error);
      }
    }
    answer.numbers = new Float64Array(answer.numbers);
    return answer;
  },
};

// The contract's own error, whose words the user reads and sends: an exception that is not caught has none.
function inWords(rule, error) {
  const id = JSON.parse(MANIFEST).rules[rule]?.id ?? rule;
  // the engine's stack has a function and a line in each line; build.mjs puts one line before this file's first
  const [, where, line] = /^(\w*).*:(\d+):\d+$/m.exec(error?.stack ?? "") ?? [];
  const place = line ? ` (${where}, line ${line - 1})` : "";
  return Object.assign(new Error(), { payload: `rule ${id}: ${error}${place}` });
}

function topGap(rule, facts, answer) {
  const bore = facts.get(BORE);
  if (!(bore >= 0.05 && bore <= 0.16)) return ["cannot-say", 0];
  const use = facts.choice(USE);
  if (use === undefined) return ["cannot-say", 1];
  const perBore = gapOverBore(use, facts);
  const [card, closing] = [facts.get(CARD), facts.get(CLOSING)];

  const read = Array.from(facts.all(BORES), (v) => (Number.isNaN(v) ? bore : v));
  const places = read.length > 0 ? read.map((b, place) => [place, b]) : [[undefined, bore]];
  const windows = [], numbers = [];
  for (const [place, b] of places) {
    const window = { rule, fact: 0, place, below: "warn", above: "note", reuse: false };
    window.numbers = answer.numbers.length + numbers.length;
    if (card !== undefined) {
      const low = card * b;
      windows.push({ ...window, neverBelow: low, low, aim: low, high: low * 1.5, text: 1 });
      numbers.push(card * 1000);
    } else {
      let low = perBore * b;
      if (closing > low) low = closing;
      const high = low + 0.001 * b;
      windows.push({ ...window, neverBelow: closing, low, aim: (low + high) / 2, high, text: 0 });
      numbers.push(perBore * 1000, use);
    }
  }
  if (!windows.every(holdsTogether)) return ["cannot-say", CROSSED];
  answer.windows.push(...windows);
  answer.numbers.push(...numbers);
  return ["answered"];
}

function gapOverBore(use, facts) {
  const base = [0.004, 0.0045, 0.0055][use];
  const material = [1, 1.05, 1.1][facts.choice(MATERIAL)] ?? 1;
  if (!(facts.choice(ADDER) > 0)) return base * material;
  const withAdder = (base + 0.001) * material;
  const power = facts.get(POWER);
  return power > 75000 ? withAdder * Math.sqrt(power / 75000) : withAdder;
}

// Limits are numbers in rising order; one that does not hold together would cost the pack its whole answer.
function holdsTogether({ neverBelow, low, aim, high }) {
  const limits = [neverBelow, low, aim, high].filter((limit) => limit !== undefined);
  return limits.every((limit, i) => Number.isFinite(limit) && (i === 0 || limits[i - 1] <= limit));
}

function plainIron(rule, facts, answer) {
  const material = facts.choice(MATERIAL);
  if (material === undefined) return ["cannot-say", 0];
  const [adder, use, power] = [facts.choice(ADDER) ?? 0, facts.choice(USE), facts.get(POWER)];
  if (adder === 0 && use === STREET) return ["not-applicable", 1];
  if (material !== IRON || (adder === 0 && use !== ALL_OUT)) return ["clear"];
  const finding = { rule, level: "warn", place: undefined, numbers: answer.numbers.length };
  if (adder === 0) {
    answer.findings.push({ ...finding, level: "note", text: 2 });
  } else if (power === undefined) {
    answer.findings.push({ ...finding, text: 1 });
    answer.numbers.push(adder);
  } else {
    answer.findings.push({ ...finding, text: 0 });
    answer.numbers.push(adder, power);
  }
  return ["answered"];
}
