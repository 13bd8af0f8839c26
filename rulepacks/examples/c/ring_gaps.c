// Ring gaps of an invented shop, in C. The figures are invented.
// Nothing is freed: a pack answers once, and what it had goes with its memory.
#include "rule_pack.h"
#include <stdlib.h>

// the manifest as JSON, put into the program when it is compiled (C23)
static const char MANIFEST[] = {
#embed "manifest.json"
};

enum { USE, ADDER, BORE, BORES, MATERIAL, CARD, CLOSING, POWER }; // the manifest's `facts`
enum { TOP_GAP, PLAIN_IRON };                                     // the manifest's `rules`
enum { STREET = 0, ALL_OUT = 2, IRON = 0 };
enum { CROSSED = 2 }; // the reason that the limits cross: the last of a window rule's `reasons`

#define ANSWERED EXPORTS_THOU_RULES_PACK_STATE_ANSWERED
#define CLEAR EXPORTS_THOU_RULES_PACK_STATE_CLEAR
#define NOT_APPLICABLE EXPORTS_THOU_RULES_PACK_STATE_NOT_APPLICABLE
#define CANNOT_SAY EXPORTS_THOU_RULES_PACK_STATE_CANNOT_SAY
#define WARN EXPORTS_THOU_RULES_PACK_LEVEL_WARN
#define NOTE EXPORTS_THOU_RULES_PACK_LEVEL_NOTE

typedef exports_thou_rules_pack_facts_t facts;
typedef exports_thou_rules_pack_answer_t answer;
typedef exports_thou_rules_pack_outcome_t outcome;
typedef exports_thou_rules_pack_window_t window;
typedef exports_thou_rules_pack_finding_t finding;
typedef rule_pack_option_f64_t number;

static outcome top_gap(uint32_t rule, const facts *f, answer *a);
static outcome plain_iron(uint32_t rule, const facts *f, answer *a);

void exports_thou_rules_pack_describe(rule_pack_string_t *ret) {
  rule_pack_string_dup_n(ret, MANIFEST, sizeof MANIFEST);
}

bool exports_thou_rules_pack_assess(rule_pack_list_u32_t *ask, facts *f, answer *ret, rule_pack_string_t *err) {
  (void)err;
  size_t places = f->starts.ptr[BORES + 1] - f->starts.ptr[BORES] + 1;
  *ret = (answer){
      .outcomes.ptr = calloc(ask->len, sizeof(outcome)),
      .windows.ptr = calloc(places, sizeof(window)),
      .findings.ptr = calloc(1, sizeof(finding)),
      .numbers.ptr = calloc(2 * places + 2, sizeof(double)),
  };
  for (size_t i = 0; i < ask->len; i++) {
    uint32_t rule = ask->ptr[i];
    ret->outcomes.ptr[ret->outcomes.len++] = rule == TOP_GAP ? top_gap(rule, f, ret) : plain_iron(rule, f, ret);
  }
  return true;
}

// The first value that is there: not NaN.
static number get(const facts *f, int fact) {
  for (uint32_t i = f->starts.ptr[fact]; i < f->starts.ptr[fact + 1]; i++) {
    double value = f->values.ptr[i];
    if (value == value) return (number){true, value};
  }
  return (number){false, 0};
}

// A choice's number, -1 where the sheet has none that the manifest lists.
static int choice(const facts *f, int fact) {
  number value = get(f, fact);
  return value.is_some && value.val >= 0 ? (int)value.val : -1;
}

static void push(answer *a, double value) { a->numbers.ptr[a->numbers.len++] = value; }

static double gap_over_bore(int use, const facts *f) {
  double base = use == STREET ? 0.004 : use == ALL_OUT ? 0.0055 : 0.0045;
  int of = choice(f, MATERIAL);
  double material = of == 1 ? 1.05 : of == 2 ? 1.1 : 1.0;
  if (choice(f, ADDER) < 1) return base * material;
  double with_adder = (base + 0.001) * material;
  number power = get(f, POWER);
  return power.is_some && power.val > 75000.0 ? with_adder * __builtin_sqrt(power.val / 75000.0) : with_adder;
}

// Limits are numbers in rising order; one that does not hold together would cost the pack its whole answer.
static bool holds_together(const window *w) {
  number limits[] = {w->never_below, w->low, w->aim, w->high};
  double last = -__builtin_inf();
  for (int i = 0; i < 4; i++) {
    if (!limits[i].is_some) continue;
    if (!__builtin_isfinite(limits[i].val) || limits[i].val < last) return false;
    last = limits[i].val;
  }
  return true;
}

static outcome top_gap(uint32_t rule, const facts *f, answer *a) {
  number bore = get(f, BORE), card = get(f, CARD), closing = get(f, CLOSING);
  if (!bore.is_some || !(bore.val >= 0.05 && bore.val <= 0.16)) return (outcome){rule, CANNOT_SAY, 0};
  int use = choice(f, USE);
  if (use < 0) return (outcome){rule, CANNOT_SAY, 1};
  double per_bore = gap_over_bore(use, f);

  uint32_t from = f->starts.ptr[BORES], places = f->starts.ptr[BORES + 1] - from;
  for (uint32_t place = 0; place < (places ? places : 1); place++) {
    double b = places ? f->values.ptr[from + place] : bore.val;
    if (b != b) b = bore.val;
    window *w = &a->windows.ptr[a->windows.len++];
    *w = (window){.rule = rule, .place = {places > 0, place}, .below = WARN, .above = NOTE, .numbers = a->numbers.len};
    if (card.is_some) {
      double low = card.val * b;
      w->never_below = w->low = w->aim = (number){true, low};
      w->high = (number){true, low * 1.5};
      w->text = 1;
      push(a, card.val * 1000.0);
    } else {
      double low = per_bore * b;
      if (closing.is_some && closing.val > low) low = closing.val;
      double high = low + 0.001 * b;
      w->never_below = closing;
      w->low = (number){true, low};
      w->aim = (number){true, (low + high) / 2.0};
      w->high = (number){true, high};
      push(a, per_bore * 1000.0);
      push(a, use);
    }
    if (!holds_together(w)) {
      a->windows.len = 0;
      return (outcome){rule, CANNOT_SAY, CROSSED};
    }
  }
  return (outcome){rule, ANSWERED, 0};
}

static outcome plain_iron(uint32_t rule, const facts *f, answer *a) {
  int material = choice(f, MATERIAL), adder = choice(f, ADDER), use = choice(f, USE);
  number power = get(f, POWER);
  if (material < 0) return (outcome){rule, CANNOT_SAY, 0};
  if (adder < 0) adder = 0;
  if (adder == 0 && use == STREET) return (outcome){rule, NOT_APPLICABLE, 1};
  if (material != IRON || (adder == 0 && use != ALL_OUT)) return (outcome){rule, CLEAR, 0};
  finding *found = &a->findings.ptr[a->findings.len++];
  *found = (finding){.rule = rule, .level = WARN, .numbers = a->numbers.len};
  if (adder == 0) {
    found->level = NOTE;
    found->text = 2;
  } else {
    found->text = power.is_some ? 0 : 1;
    push(a, adder);
    if (power.is_some) push(a, power.val);
  }
  return (outcome){rule, ANSWERED, 0};
}
