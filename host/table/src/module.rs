//! The core module of a table: the contract's functions, a function for each rule, and the words of the manifest.
//!
//! Layouts are those of the component model's canonical ABI for schemas/rules-1.0.wit: a record's fields in order, each
//! at its own alignment; an option is a byte and then its value; a list is where it is and how many.

use crate::emit::{Code, ERROR, GET, NO_NUMBER, NOT_READ, PLACE, STARTS, WHY};
use crate::tree::{BoolExpr, NumExpr, Side};
use thou_contract::Level;
use wasm_encoder::{
    BlockType, CodeSection, ConstExpr, DataSection, ElementSection, Elements, ExportKind, ExportSection,
    FunctionSection, GlobalSection, GlobalType, MemArg, MemorySection, MemoryType, Module, RefType, TableSection,
    TableType, TypeSection, ValType,
};

/// What one rule does, in the order of the manifest.
#[derive(Debug, Default)]
pub(crate) struct RuleCode {
    pub(crate) parts: Vec<AnswerCode>,
    /// Whether a condition that does not hold means that the rule looked and has nothing to say.
    pub(crate) clear: bool,
    /// The days between which it counts.
    pub(crate) days: Option<Days>,
}

/// From when and until when a rule counts.
#[derive(Debug)]
pub(crate) struct Days {
    /// The fact that is the day.
    pub(crate) fact: u32,
    /// The first day, s, and the reason before it.
    pub(crate) from: Option<(f64, u32)>,
    /// The end of the last day, s, and the reason after it.
    pub(crate) until: Option<(f64, u32)>,
}

/// One answer of a rule, at every place that its facts run over.
#[derive(Debug)]
pub(crate) struct AnswerCode {
    pub(crate) when: Vec<BoolExpr>,
    /// The facts that run over places, if it does.
    pub(crate) over: Vec<u32>,
    pub(crate) text: u32,
    pub(crate) gives: AnswerKind,
}

/// What a rule answers with.
#[derive(Debug)]
pub(crate) enum AnswerKind {
    Window { fact: u32, limits: [Option<NumExpr>; 5], below: Level, above: Level, reuse: bool },
    Finding(Level),
    Service { meter: u32, lives: [NumExpr; 3] },
    Step,
}

const REALLOC: u32 = 0;
const WINDOW: u32 = 3;
const FINDING: u32 = 4;
const SERVICE: u32 = 5;
const BEGIN: u32 = 6;
const OUTCOME: u32 = 7;
const ASSESS: u32 = 8;
const DESCRIBE: u32 = 9;
const STEP: u32 = 10;
const SETTLE: u32 = 11;
const FIRST_RULE: u32 = 12;

// globals after ERROR
const TOP: u32 = 1;
const VALUES: u32 = 3;
/// Where the next window, finding, service, step and outcome go.
const NEXT: [u32; 5] = [4, 5, 6, 15, 7];
const GAVE: u32 = 8;
const BAD: u32 = 9;
const HOLES: u32 = 10;
/// Where they went when the rule began.
const BEGAN: [u32; 4] = [11, 12, 13, 16];
/// The reason of what made the rule's numbers bad; 0 for none of its own.
const BAD_WHY: u32 = 17;
const GLOBALS: usize = 18;
/// Limits that do not rise.
const NO_ORDER: i32 = 4;
/// Limits that are the same but for rounding stand in order, as a share; the host's own measure.
const SAME: f64 = 1e-9;

// bytes of a window, a finding, a service, a step, an outcome
const SIZES: [i32; 5] = [112, 24, 48, 20, 12];
/// Where the outcomes are in those.
const OUTCOMES: usize = 4;

/// Where `describe` has its answer, and `assess` its own.
const DESCRIBED: i32 = 8;
const ANSWER: i32 = 16;
const WORDS: i32 = 128;
const PAGE: usize = 65_536;

fn at(offset: u64, align: u32) -> MemArg {
    MemArg { offset, align, memory_index: 0 }
}

/// The module; `runs` says of each fact of the manifest whether it runs over places.
pub(crate) fn module(rules: &[RuleCode], runs: &[bool], manifest: &str) -> Vec<u8> {
    let (i, f) = (ValType::I32, ValType::F64);
    let mut types = TypeSection::new();
    let signatures: [(&[ValType], &[ValType]); 13] = [
        (&[i, i, i, i], &[i]),
        (&[i, i], &[f]),
        (&[i, i], &[i]),
        (&[i, i, i, i, f, f, f, f, f, i, i], &[]),
        (&[i, i, i, i], &[]),
        (&[i, i, i, f, f, f, i], &[]),
        (&[], &[]),
        (&[i, i], &[]),
        (&[i, i, i, i, i, i], &[i]),
        (&[], &[i]),
        (&[i, i], &[]),
        (&[i, i, i], &[]),
        (&[], &[]),
    ];
    let mut functions = FunctionSection::new();
    for ((parameters, results), index) in signatures.into_iter().zip(0_u32..) {
        types.ty().function(parameters.iter().copied(), results.iter().copied());
        if index < FIRST_RULE {
            functions.function(index);
        }
    }
    let count = u32::try_from(rules.len()).unwrap_or(u32::MAX);
    for _ in rules {
        functions.function(FIRST_RULE);
    }
    let mut tables = TableSection::new();
    let length = u64::from(count);
    tables.table(TableType {
        element_type: RefType::FUNCREF,
        table64: false,
        minimum: length,
        maximum: Some(length),
        shared: false,
    });
    let top = (WORDS as usize + manifest.len()).next_multiple_of(8);
    let mut memories = MemorySection::new();
    let pages = top.div_ceil(PAGE).max(1) as u64;
    memories.memory(MemoryType { minimum: pages, maximum: None, memory64: false, shared: false, page_size_log2: None });
    let mut globals = GlobalSection::new();
    for index in 0..GLOBALS {
        let start = if index == TOP as usize { i32::try_from(top).unwrap_or(i32::MAX) } else { 0 };
        let of = GlobalType { val_type: i, mutable: true, shared: false };
        globals.global(of, &ConstExpr::i32_const(start));
    }
    let mut exports = ExportSection::new();
    exports.export("memory", ExportKind::Memory, 0);
    exports.export("cabi_realloc", ExportKind::Func, REALLOC);
    exports.export("thou:rules/pack@1.0.0#describe", ExportKind::Func, DESCRIBE);
    exports.export("thou:rules/pack@1.0.0#assess", ExportKind::Func, ASSESS);
    let mut elements = ElementSection::new();
    let all: Vec<u32> = (FIRST_RULE..FIRST_RULE.saturating_add(count)).collect();
    elements.active(None, &ConstExpr::i32_const(0), Elements::Functions(all.into()));
    let mut code = CodeSection::new();
    code.function(&realloc().body());
    code.function(&get().body());
    code.function(&there().body());
    code.function(&window().body());
    code.function(&finding().body());
    code.function(&service().body());
    code.function(&begin().body());
    code.function(&outcome().body());
    code.function(&assess(rules).body());
    code.function(&describe().body());
    code.function(&step().body());
    code.function(&settle().body());
    for (rule, index) in rules.iter().zip(0_i32..) {
        code.function(&of_rule(rule, index, runs).body());
    }
    let mut data = DataSection::new();
    let length = i32::try_from(manifest.len()).unwrap_or(i32::MAX);
    data.active(0, &ConstExpr::i32_const(DESCRIBED), [WORDS.to_le_bytes(), length.to_le_bytes()].concat());
    data.active(0, &ConstExpr::i32_const(WORDS), manifest.bytes());
    let mut module = Module::new();
    module.section(&types).section(&functions).section(&tables).section(&memories).section(&globals);
    module.section(&exports).section(&elements).section(&code).section(&data);
    module.finish()
}

fn level(level: Level) -> i32 {
    match level {
        Level::Hold => 0,
        Level::Warn => 1,
        Level::Note => 2,
    }
}

/// Evaluates a rule's parts in turn, place by place, and says what became of it.
fn of_rule(rule: &RuleCode, index: i32, runs: &[bool]) -> Code {
    let mut code = Code::new(0, runs);
    let place = code.local(ValType::I32);
    debug_assert_eq!(place, PLACE);
    let many = code.local(ValType::I32);
    code.put().call(BEGIN);
    if let Some(days) = &rule.days {
        let day = code.local(ValType::F64);
        code.put().i32_const(days.fact.cast_signed()).i32_const(0).call(GET).local_set(day);
        // what has ended cannot say any more: silence would be taken for a go
        for (end, state) in [(days.until, 3), (days.from, 2)] {
            let Some((at, reason)) = end else { continue };
            let mut put = code.put();
            put.local_get(day).f64_const(at.into());
            if state == 3 {
                put.f64_ge()
            } else {
                put.f64_lt()
            };
            put.if_(BlockType::Empty).i32_const(index).i32_const(state).i32_const(reason.cast_signed());
            put.call(SETTLE).return_().end();
        }
    }
    for part in &rule.parts {
        code.put().i32_const(0).local_set(PLACE).i32_const(0).local_set(many);
        for fact in &part.over {
            code.longest(*fact, many);
        }
        if let (AnswerKind::Service { meter, lives }, false) = (&part.gives, part.over.is_empty()) {
            least_service(&mut code, part, (index, *meter), lives, many);
            continue;
        }
        if part.over.is_empty() {
            one(&mut code, part, index, many);
            continue;
        }
        code.put().loop_(BlockType::Empty);
        one(&mut code, part, index, many);
        code.put().local_get(PLACE).i32_const(1).i32_add().local_tee(PLACE);
        code.put().local_get(many).i32_lt_u().br_if(0).end();
    }
    code.put().i32_const(index).i32_const(if rule.clear { 1 } else { 2 }).call(OUTCOME);
    code
}

/// A part is taken apart once: what runs over places is one service, by the least of each life.
fn least_service(code: &mut Code, part: &AnswerCode, (rule, meter): (i32, u32), lives: &[NumExpr; 3], many: u32) {
    let least = [(); 3].map(|()| code.local(ValType::F64));
    let here = [(); 3].map(|()| code.local(ValType::F64));
    let found = code.local(ValType::I32);
    for life in least {
        code.put().f64_const(f64::INFINITY.into()).local_set(life);
    }
    code.put().i32_const(0).local_set(found).loop_(BlockType::Empty);
    code.put().i32_const(0).global_set(ERROR);
    let when = part.when.iter().cloned().reduce(|a, b| BoolExpr::And(Box::new(a), Box::new(b)));
    code.bool(&when.unwrap_or(BoolExpr::Const(true)));
    let holds = code.local(ValType::I32);
    code.put().local_set(holds).global_get(ERROR).if_(BlockType::Empty);
    remember_error(code);
    code.put().else_().local_get(holds).if_(BlockType::Empty);
    for (life, local) in lives.iter().zip(here) {
        code.num(life);
        code.put().local_set(local);
    }
    code.put().global_get(ERROR).if_(BlockType::Empty);
    remember_error(code);
    code.put().else_().i32_const(1).local_set(found);
    for (life, local) in least.into_iter().zip(here) {
        code.put().local_get(life).local_get(local).f64_min().local_set(life);
    }
    code.put().end().end().end();
    code.put().local_get(PLACE).i32_const(1).i32_add().local_tee(PLACE).local_get(many).i32_lt_u().br_if(0).end();
    // a place that is not read may have the least: then nobody can say
    code.put().local_get(found).global_get(HOLES).i32_eqz().i32_and().if_(BlockType::Empty);
    code.put().i32_const(0).global_set(ERROR).i32_const(rule).i32_const(-1).i32_const(meter.cast_signed());
    for life in least {
        code.put().local_get(life);
    }
    code.put().i32_const(part.text.cast_signed()).call(SERVICE).end();
}

/// One place of a part.
fn one(code: &mut Code, part: &AnswerCode, rule: i32, many: u32) {
    code.put().i32_const(0).global_set(ERROR);
    let all = part.when.iter().cloned().reduce(|a, b| BoolExpr::And(Box::new(a), Box::new(b)));
    if let Some(when) = &all {
        code.bool(when);
        let holds = code.local(ValType::I32);
        code.put().local_set(holds).global_get(ERROR).if_(BlockType::Empty);
        remember_error(code);
        code.put().else_().local_get(holds).if_(BlockType::Empty);
    }
    // where no fact has places, what is said holds for all of them
    let which = |code: &mut Code| {
        code.put().local_get(PLACE).i32_const(-1).local_get(many).select();
    };
    let mut own = [const { None }; 5];
    if let AnswerKind::Window { limits, .. } = &part.gives {
        own.clone_from(limits);
        // the working limits first, as the others may be made of them
        let [_, low, _, high, _] = &mut own;
        for (side, limit) in [(Side::Low, low), (Side::High, high)] {
            let Some(num) = limit else { continue };
            let local = code.local(ValType::F64);
            code.num(num);
            code.put().local_set(local);
            code.own.insert(side, local);
            *num = NumExpr::Own(side);
        }
    }
    code.put().i32_const(rule);
    match &part.gives {
        AnswerKind::Window { fact, limits, below, above, reuse } => {
            code.put().i32_const(fact.cast_signed());
            which(code);
            let mask = limits.iter().rev().fold(0, |mask, limit| mask << 1 | i32::from(limit.is_some()));
            code.put().i32_const(mask);
            for limit in own {
                code.num(limit.as_ref().unwrap_or(&NumExpr::Const(0.0)));
            }
            let flags = level(*below) | level(*above) << 8 | i32::from(*reuse) << 16;
            code.put().i32_const(flags).i32_const(part.text.cast_signed()).call(WINDOW);
        }
        AnswerKind::Finding(loud) => {
            code.put().i32_const(level(*loud));
            which(code);
            code.put().i32_const(part.text.cast_signed()).call(FINDING);
        }
        AnswerKind::Service { meter, lives } => {
            which(code);
            code.put().i32_const(meter.cast_signed());
            for life in lives {
                code.num(life);
            }
            code.put().i32_const(part.text.cast_signed()).call(SERVICE);
        }
        AnswerKind::Step => {
            code.put().i32_const(part.text.cast_signed()).call(STEP);
        }
    }
    if all.is_some() {
        code.put().end().end();
    }
}

/// What is not read is told before what was worked out of it: a number of nothing divides by nothing.
fn remember_error(code: &mut Code) {
    let mut put = code.put();
    put.global_get(ERROR).i32_const(NOT_READ).i32_and().global_get(HOLES).i32_or().global_set(HOLES);
    put.global_get(ERROR).i32_const(NO_NUMBER).i32_eq().if_(BlockType::Empty);
    put.global_get(WHY).global_set(BAD_WHY).i32_const(NO_NUMBER).global_get(BAD).i32_or().global_set(BAD).end();
}

/// Hands out what follows, and never takes back: a store lives for one answer.
fn realloc() -> Code {
    let mut code = Code::new(4, &[]);
    let here = code.local(ValType::I32);
    let mut put = code.put();
    put.global_get(TOP).i32_const(7).i32_add().i32_const(-8).i32_and().local_tee(here);
    put.local_get(3).i32_add().global_set(TOP);
    // as many pages as are missing
    put.global_get(TOP).memory_size(0).i32_const(16).i32_shl().i32_gt_u().if_(BlockType::Empty);
    put.global_get(TOP).memory_size(0).i32_const(16).i32_shl().i32_sub().i32_const(0xffff).i32_add();
    put.i32_const(16).i32_shr_u().memory_grow(0).i32_const(-1).i32_eq().if_(BlockType::Empty).unreachable().end().end();
    put.local_get(here);
    code
}

/// Parameters: fact, place. Leaves where its value is, or 0 where it has none.
fn find(code: &mut Code) {
    let entry = code.local(ValType::I32);
    let mut put = code.put();
    put.global_get(STARTS).local_get(0).i32_const(2).i32_shl().i32_add().local_set(entry);
    put.local_get(entry).i32_load(at(0, 2)).local_get(1).i32_add().local_get(entry).i32_load(at(4, 2)).i32_ge_u();
    put.if_(BlockType::Result(ValType::I32)).i32_const(0).else_();
    put.global_get(VALUES).local_get(entry).i32_load(at(0, 2)).local_get(1).i32_add().i32_const(3).i32_shl().i32_add();
    put.end();
}

fn get() -> Code {
    let mut code = Code::new(2, &[]);
    find(&mut code);
    let (place, value) = (code.local(ValType::I32), code.local(ValType::F64));
    let mut put = code.put();
    put.local_tee(place).if_(BlockType::Empty).local_get(place).f64_load(at(0, 3)).local_tee(value).local_get(value);
    put.f64_eq().if_(BlockType::Empty).local_get(value).return_().end().end();
    put.global_get(ERROR).i32_const(NOT_READ).i32_or().global_set(ERROR).f64_const(0.0.into());
    code
}

fn there() -> Code {
    let mut code = Code::new(2, &[]);
    find(&mut code);
    let place = code.local(ValType::I32);
    let mut put = code.put();
    put.local_tee(place).if_(BlockType::Result(ValType::I32)).local_get(place).f64_load(at(0, 3));
    put.local_get(place).f64_load(at(0, 3)).f64_eq().else_().i32_const(0).end();
    code
}

/// Leaves the function where the error of what was just evaluated says so.
fn stop_on_error(code: &mut Code) {
    code.put().global_get(ERROR).if_(BlockType::Empty);
    remember_error(code);
    code.put().return_().end();
}

fn bad(code: &mut Code, what: i32) {
    code.put().if_(BlockType::Empty).global_get(BAD).i32_const(what).i32_or().global_set(BAD).return_().end();
}

/// Parameters: rule, fact, place, mask, five limits, flags, text.
fn window() -> Code {
    let mut code = Code::new(11, &[]);
    let under = code.local(ValType::F64);
    stop_on_error(&mut code);
    code.put().f64_const(f64::NEG_INFINITY.into()).local_set(under);
    for limit in 0..5_u32 {
        let value = 4 + limit;
        code.put().local_get(3).i32_const(1 << limit).i32_and().if_(BlockType::Empty);
        // neither infinite nor not a number
        code.put().local_get(value).f64_abs().f64_const(f64::MAX.into()).f64_le().i32_eqz();
        bad(&mut code, NO_NUMBER);
        code.put().local_get(under).local_get(value).f64_sub();
        code.put()
            .local_get(value)
            .f64_abs()
            .local_get(under)
            .f64_abs()
            .f64_max()
            .f64_const(SAME.into())
            .f64_mul()
            .f64_gt();
        code.put().local_get(under).f64_const(f64::NEG_INFINITY.into()).f64_ne().i32_and();
        bad(&mut code, NO_ORDER);
        code.put().local_get(value).local_set(under).end();
    }
    let [here, ..] = NEXT;
    let mut put = code.put();
    put.global_get(here).local_get(0).i32_store(at(0, 2)).global_get(here).local_get(1).i32_store(at(4, 2));
    put.global_get(here).local_get(2).i32_const(-1).i32_ne().i32_store8(at(8, 0));
    put.global_get(here).local_get(2).i32_store(at(12, 2));
    for limit in 0..5_u32 {
        let offset = 16 + 16 * u64::from(limit);
        put.global_get(here).local_get(3).i32_const(limit.cast_signed()).i32_shr_u().i32_const(1).i32_and();
        put.i32_store8(at(offset, 0)).global_get(here).local_get(4 + limit).f64_store(at(offset + 8, 3));
    }
    for (byte, shift) in [(96, 0), (97, 8), (98, 16)] {
        put.global_get(here).local_get(9).i32_const(shift).i32_shr_u().i32_store8(at(byte, 0));
    }
    put.global_get(here).local_get(10).i32_store(at(100, 2)).global_get(here).i32_const(0).i32_store(at(104, 2));
    gave(&mut code, 0);
    code
}

/// The next item of this list goes behind this one.
fn gave(code: &mut Code, list: usize) {
    let (next, size) = (NEXT.get(list).copied().unwrap_or(0), SIZES.get(list).copied().unwrap_or(0));
    code.put().global_get(next).i32_const(size).i32_add().global_set(next).i32_const(1).global_set(GAVE);
}

/// Parameters: rule, level, place, text.
fn finding() -> Code {
    let mut code = Code::new(4, &[]);
    let [_, here, ..] = NEXT;
    let mut put = code.put();
    put.global_get(here).local_get(0).i32_store(at(0, 2)).global_get(here).local_get(1).i32_store8(at(4, 0));
    put.global_get(here).local_get(2).i32_const(-1).i32_ne().i32_store8(at(8, 0));
    put.global_get(here).local_get(2).i32_store(at(12, 2)).global_get(here).local_get(3).i32_store(at(16, 2));
    put.global_get(here).i32_const(0).i32_store(at(20, 2));
    gave(&mut code, 1);
    code
}

/// Parameters: rule, place, meter, three lives, text.
fn service() -> Code {
    let mut code = Code::new(7, &[]);
    stop_on_error(&mut code);
    for life in 3..6 {
        code.put().local_get(life).f64_abs().f64_const(f64::MAX.into()).f64_le().i32_eqz();
        bad(&mut code, NO_NUMBER);
    }
    code.put().f64_const(0.0.into()).local_get(3).f64_le().local_get(3).local_get(4).f64_le().i32_and();
    code.put()
        .local_get(4)
        .local_get(5)
        .f64_le()
        .i32_and()
        .local_get(5)
        .f64_const(0.0.into())
        .f64_gt()
        .i32_and()
        .i32_eqz();
    bad(&mut code, NO_ORDER);
    let [_, _, here, ..] = NEXT;
    let mut put = code.put();
    put.global_get(here).local_get(0).i32_store(at(0, 2));
    put.global_get(here).local_get(1).i32_const(-1).i32_ne().i32_store8(at(4, 0));
    put.global_get(here).local_get(1).i32_store(at(8, 2)).global_get(here).local_get(2).i32_store(at(12, 2));
    for (life, offset) in [(3, 16), (4, 24), (5, 32)] {
        put.global_get(here).local_get(life).f64_store(at(offset, 3));
    }
    put.global_get(here).local_get(6).i32_store(at(40, 2)).global_get(here).i32_const(0).i32_store(at(44, 2));
    gave(&mut code, 2);
    code
}

fn begin() -> Code {
    let mut code = Code::new(0, &[]);
    for global in [GAVE, BAD, HOLES, WHY, BAD_WHY] {
        code.put().i32_const(0).global_set(global);
    }
    for (began, next) in BEGAN.into_iter().zip(NEXT) {
        code.put().global_get(next).global_set(began);
    }
    code
}

/// Parameters: rule, the state where nothing was given. What cannot be worked out takes back the rule's other answers:
/// a window at one cylinder must not look like all of them.
fn outcome() -> Code {
    let mut code = Code::new(2, &[]);
    let (state, reason) = (code.local(ValType::I32), code.local(ValType::I32));
    code.put().local_get(1).local_set(state).global_get(BAD).if_(BlockType::Empty);
    for (began, next) in BEGAN.into_iter().zip(NEXT) {
        code.put().global_get(began).global_set(next);
    }
    let mut put = code.put();
    put.i32_const(3).local_set(state);
    // limits out of order, else what had no number, else that there was none
    put.i32_const(3).global_get(BAD_WHY).i32_const(2).global_get(BAD_WHY).select();
    put.global_get(BAD).i32_const(NO_ORDER).i32_and().select();
    put.local_set(reason).else_().global_get(GAVE).if_(BlockType::Empty).i32_const(0).local_set(state).else_();
    put.global_get(HOLES)
        .if_(BlockType::Empty)
        .i32_const(3)
        .local_set(state)
        .i32_const(1)
        .local_set(reason)
        .end()
        .end();
    put.end();
    put.local_get(0).local_get(state).local_get(reason).call(SETTLE);
    code
}

/// Parameters: rule, state, reason. The outcome of a rule.
fn settle() -> Code {
    let mut code = Code::new(3, &[]);
    let [.., here] = NEXT;
    let mut put = code.put();
    put.global_get(here).local_get(0).i32_store(at(0, 2)).global_get(here).local_get(1).i32_store8(at(4, 0));
    put.global_get(here).local_get(2).i32_store(at(8, 2));
    put.global_get(here).i32_const(SIZES[OUTCOMES]).i32_add().global_set(here);
    code
}

/// Parameters: rule, text. A step is done once an engine.
fn step() -> Code {
    let mut code = Code::new(2, &[]);
    let [.., here, _] = NEXT;
    let mut put = code.put();
    put.global_get(here).local_get(0).i32_store(at(0, 2)).global_get(here).i32_const(0).i32_store8(at(4, 0));
    put.global_get(here).i32_const(0).i32_store(at(8, 2)).global_get(here).local_get(1).i32_store(at(12, 2));
    put.global_get(here).i32_const(0).i32_store(at(16, 2));
    gave(&mut code, 3);
    code
}

/// Parameters: the rules asked and the two lists of facts, each where and how many.
fn assess(rules: &[RuleCode]) -> Code {
    let mut code = Code::new(6, &[]);
    let [index, most] = [(); 2].map(|()| code.local(ValType::I32));
    let began = [(); 5].map(|()| code.local(ValType::I32));
    let mut put = code.put();
    put.local_get(2).global_set(STARTS).local_get(4).global_set(VALUES).i32_const(1).local_set(most);
    // the most places that any fact has
    put.block(BlockType::Empty).loop_(BlockType::Empty);
    put.local_get(index).i32_const(1).i32_add().local_get(3).i32_ge_u().br_if(1);
    let entry = |put: &mut wasm_encoder::InstructionSink<'_>, offset| {
        put.local_get(2).local_get(index).i32_const(2).i32_shl().i32_add().i32_load(at(offset, 2));
    };
    let length = |put: &mut wasm_encoder::InstructionSink<'_>| {
        entry(put, 4);
        entry(put, 0);
        put.i32_sub();
    };
    length(&mut put);
    put.local_get(most);
    length(&mut put);
    put.local_get(most).i32_gt_u().select().local_set(most);
    put.local_get(index).i32_const(1).i32_add().local_set(index).br(0).end().end();
    let parts = || rules.iter().flat_map(|r| &r.parts);
    let count =
        |which: fn(&AnswerKind) -> bool| i32::try_from(parts().filter(|p| which(&p.gives)).count()).unwrap_or(0);
    let counts = [
        count(|g| matches!(g, AnswerKind::Window { .. })),
        count(|g| matches!(g, AnswerKind::Finding(_))),
        count(|g| matches!(g, AnswerKind::Service { .. })),
        count(|g| matches!(g, AnswerKind::Step)),
    ];
    let rooms = counts.into_iter().zip(SIZES).map(|(count, size)| Some(count * size)).chain([None]);
    for ((room, began), next) in rooms.zip(began).zip(NEXT) {
        put.i32_const(0).i32_const(0).i32_const(8);
        match room {
            Some(bytes) => put.i32_const(bytes).local_get(most),
            None => put.i32_const(SIZES[OUTCOMES]).local_get(1),
        };
        put.i32_mul().call(REALLOC).local_tee(began).global_set(next);
    }
    put.i32_const(0).local_set(index).block(BlockType::Empty).loop_(BlockType::Empty);
    put.local_get(index).local_get(1).i32_ge_u().br_if(1);
    put.local_get(0).local_get(index).i32_const(2).i32_shl().i32_add().i32_load(at(0, 2)).call_indirect(0, FIRST_RULE);
    put.local_get(index).i32_const(1).i32_add().local_set(index).br(0).end().end();
    // ok, then outcomes, windows, findings, services, steps; numbers are none
    put.i32_const(ANSWER).i32_const(0).i32_store8(at(0, 0));
    for (slot, list) in [OUTCOMES, 0, 1, 2, 3].into_iter().enumerate() {
        let offset = 4 + 8 * slot as u64;
        let (from, next, size) = match (began.get(list), NEXT.get(list), SIZES.get(list)) {
            (Some(from), Some(next), Some(size)) => (*from, *next, *size),
            _ => continue,
        };
        put.i32_const(ANSWER).local_get(from).i32_store(at(offset, 2));
        put.i32_const(ANSWER).global_get(next).local_get(from).i32_sub().i32_const(size).i32_div_u();
        put.i32_store(at(offset + 4, 2));
    }
    for offset in [44, 48] {
        put.i32_const(ANSWER).i32_const(0).i32_store(at(offset, 2));
    }
    put.i32_const(ANSWER);
    code
}

fn describe() -> Code {
    let mut code = Code::new(0, &[]);
    code.put().i32_const(DESCRIBED);
    code
}
