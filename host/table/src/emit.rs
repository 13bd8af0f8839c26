//! Expressions as instructions. A value lies on the stack; whether it is an error, and which, is noted in a global, so
//! that `&&` and `||` can take it back where one side decides alone.

use crate::tree::{BoolExpr, Cmp, Fold, NumExpr, Op, Reason, Side};
use std::collections::BTreeMap;
use wasm_encoder::{BlockType, InstructionSink, MemArg, ValType};

/// Global: what went wrong since it was last set to 0.
pub(crate) const ERROR: u32 = 0;
/// A fact is not there, or not read at this place.
pub(crate) const NOT_READ: i32 = 1;
/// A division by zero, or a comparison of what is no number.
pub(crate) const NO_NUMBER: i32 = 2;
/// Global: where the list of facts begins.
pub(crate) const STARTS: u32 = 2;
/// Global: which reason the last [`NO_NUMBER`] has; 0 for none of its own.
pub(crate) const WHY: u32 = 14;

/// Function: the value of a fact (number, place), or an error.
pub(crate) const GET: u32 = 1;
/// Function: whether a fact is there.
pub(crate) const THERE: u32 = 2;

/// Local: the place that is looked at; 0 of a fact that is one for all.
pub(crate) const PLACE: u32 = 0;

/// The code of one function.
pub(crate) struct Code {
    bytes: Vec<u8>,
    /// Types of the locals after the parameters.
    pub(crate) locals: Vec<ValType>,
    parameters: u32,
    /// Whether each fact runs over places.
    runs: Vec<bool>,
    /// The locals that hold the window's own limits.
    pub(crate) own: BTreeMap<Side, u32>,
}

impl Code {
    pub(crate) fn new(parameters: u32, runs: &[bool]) -> Self {
        Self { bytes: Vec::new(), locals: Vec::new(), parameters, runs: runs.to_vec(), own: BTreeMap::new() }
    }

    pub(crate) fn put(&mut self) -> InstructionSink<'_> {
        InstructionSink::new(&mut self.bytes)
    }

    /// A new local.
    pub(crate) fn local(&mut self, of: ValType) -> u32 {
        self.locals.push(of);
        self.parameters + u32::try_from(self.locals.len()).unwrap_or(u32::MAX) - 1
    }

    /// The function's body.
    pub(crate) fn body(mut self) -> wasm_encoder::Function {
        self.put().end();
        let mut function = wasm_encoder::Function::new_with_locals_types(self.locals);
        function.raw(self.bytes);
        function
    }

    fn fact(&mut self, fact: u32, function: u32) {
        let runs = self.runs.get(fact as usize).copied().unwrap_or(false);
        let mut put = self.put();
        put.i32_const(fact.cast_signed());
        if runs {
            put.local_get(PLACE);
        } else {
            put.i32_const(0);
        }
        put.call(function);
    }

    fn note(&mut self, error: i32) {
        self.put().global_get(ERROR).i32_const(error).i32_or().global_set(ERROR);
        if error == NO_NUMBER {
            self.put().i32_const(0).global_set(WHY);
        }
    }

    /// The same, for a reason of its own.
    fn note_why(&mut self, reason: Reason) {
        self.note(NO_NUMBER);
        self.put().i32_const(reason.cast_signed()).global_set(WHY);
    }

    /// Raises `many` to the number of places that this fact has.
    pub(crate) fn longest(&mut self, fact: u32, many: u32) {
        let length = self.local(ValType::I32);
        let start = u64::from(fact) * 4;
        let at = |offset| MemArg { offset, align: 2, memory_index: 0 };
        let mut put = self.put();
        put.global_get(STARTS).i32_load(at(start + 4)).global_get(STARTS).i32_load(at(start)).i32_sub();
        put.local_tee(length).local_get(many).local_get(length).local_get(many).i32_gt_u().select().local_set(many);
    }

    /// Goes through the places of some facts; what is looked at outside is as it was. No place at all is one not read.
    fn places(&mut self, facts: &[u32], one: impl FnOnce(&mut Self)) -> u32 {
        let [before, many] = [(); 2].map(|()| self.local(ValType::I32));
        self.put().local_get(PLACE).local_set(before).i32_const(0).local_set(PLACE).i32_const(0).local_set(many);
        for fact in facts {
            self.longest(*fact, many);
        }
        self.put().block(BlockType::Empty).loop_(BlockType::Empty);
        self.put().local_get(PLACE).local_get(many).i32_ge_u().br_if(1);
        one(self);
        self.put().local_get(PLACE).i32_const(1).i32_add().local_set(PLACE).br(0).end().end();
        self.put().local_get(before).local_set(PLACE).local_get(many).i32_eqz().if_(BlockType::Empty);
        self.note(NOT_READ);
        self.put().end();
        many
    }

    fn fold(&mut self, fold: Fold, of: &NumExpr, facts: &[u32]) {
        let all = self.local(ValType::F64);
        let from = match fold {
            Fold::Most => f64::NEG_INFINITY,
            Fold::Least => f64::INFINITY,
            Fold::Sum | Fold::Mean => 0.0,
        };
        self.put().f64_const(from.into()).local_set(all);
        let many = self.places(facts, |code| {
            code.put().local_get(all);
            code.num(of);
            let mut put = code.put();
            match fold {
                Fold::Most => put.f64_max(),
                Fold::Least => put.f64_min(),
                Fold::Sum | Fold::Mean => put.f64_add(),
            };
            put.local_set(all);
        });
        self.put().local_get(all);
        if fold == Fold::Mean {
            self.put().local_get(many).f64_convert_i32_u().f64_div();
        }
    }

    /// Whether it holds at any place, or at every one: a place that decides does so whatever is wrong with the others.
    fn each(&mut self, of: &BoolExpr, facts: &[u32], every: bool) {
        let [before, error, decided] = [(); 3].map(|()| self.local(ValType::I32));
        self.put().global_get(ERROR).local_set(before).i32_const(0).local_set(error).i32_const(0).local_set(decided);
        self.put().i32_const(0).global_set(ERROR);
        self.places(facts, |code| {
            code.put().i32_const(0).global_set(ERROR);
            code.bool(of);
            if every {
                code.put().i32_eqz();
            }
            let mut put = code.put();
            put.global_get(ERROR).i32_eqz().i32_and().local_get(decided).i32_or().local_set(decided);
            put.global_get(ERROR).local_get(error).i32_or().local_set(error).i32_const(0).global_set(ERROR);
        });
        // what `places` noted of none at all, and what was wrong at one
        self.put().global_get(ERROR).local_get(error).i32_or();
        self.put().i32_const(0).local_get(decided).i32_eqz().i32_sub().i32_and();
        self.put().local_get(before).i32_or().global_set(ERROR).local_get(decided);
        if every {
            self.put().i32_eqz();
        }
    }

    /// By straight lines between points; beyond them it is an error.
    fn line(&mut self, of: &NumExpr, points: &[(f64, f64)], reason: Reason) {
        let [x, y] = [(); 2].map(|()| self.local(ValType::F64));
        self.num(of);
        let ends = (points.first().map_or(0.0, |p| p.0), points.last().map_or(0.0, |p| p.0));
        self.put().local_tee(x).f64_const(ends.0.into()).f64_ge().local_get(x).f64_const(ends.1.into()).f64_le();
        self.put().i32_and().i32_eqz().if_(BlockType::Empty);
        self.note_why(reason);
        self.put().end().f64_const(points.first().map_or(0.0, |p| p.1).into()).local_set(y);
        for pair in points.windows(2) {
            let [(x0, y0), (x1, y1)] = pair else { continue };
            self.put().local_get(x).f64_const((*x0).into()).f64_gt().if_(BlockType::Empty);
            let mut put = self.put();
            put.local_get(x).f64_const((*x0).into()).f64_sub().f64_const((x1 - x0).into()).f64_div();
            put.f64_const((y1 - y0).into()).f64_mul().f64_const((*y0).into()).f64_add().local_set(y).end();
        }
        self.put().local_get(y);
    }

    fn halves(&mut self, of: &NumExpr, halves: i32, reason: Reason) {
        let [base, all] = [(); 2].map(|()| self.local(ValType::F64));
        self.num(of);
        self.put().local_set(base).f64_const(1.0.into()).local_set(all);
        for _ in 0..halves.unsigned_abs() / 2 {
            self.put().local_get(all).local_get(base).f64_mul().local_set(all);
        }
        if halves % 2 != 0 {
            self.put().local_get(all).local_get(base).f64_sqrt().f64_mul().local_set(all);
        }
        if halves < 0 {
            self.put().f64_const(1.0.into()).local_get(all).f64_div().local_set(all);
        }
        // no root of what is under zero, and nothing under one
        self.put().local_get(all).f64_abs().f64_const(f64::MAX.into()).f64_le().i32_eqz().if_(BlockType::Empty);
        self.note_why(reason);
        self.put().end().local_get(all);
    }

    /// Leaves an f64 on the stack.
    pub(crate) fn num(&mut self, num: &NumExpr) {
        match num {
            NumExpr::Const(value) => {
                self.put().f64_const((*value).into());
            }
            NumExpr::Fact(fact) => self.fact(*fact, GET),
            NumExpr::Own(side) => {
                let own = self.own.get(side).copied();
                match own {
                    Some(local) => self.put().local_get(local),
                    None => self.put().f64_const(f64::NAN.into()),
                };
            }
            NumExpr::Neg(of) => {
                self.num(of);
                self.put().f64_neg();
            }
            NumExpr::Abs(of) => {
                self.num(of);
                self.put().f64_abs();
            }
            NumExpr::Of(op, a, b) => self.of(*op, a, b),
            NumExpr::Div(a, b, reason) => {
                let by = self.local(ValType::F64);
                self.num(a);
                self.num(b);
                self.put().local_tee(by).f64_const(0.0.into()).f64_eq().if_(BlockType::Empty);
                self.note_why(*reason);
                self.put().end().local_get(by).f64_div();
            }
            NumExpr::Sqrt(of, reason) => self.halves(of, 1, *reason),
            NumExpr::Halves(of, halves, reason) => self.halves(of, *halves, *reason),
            NumExpr::Fold(fold, of, facts) => self.fold(*fold, of, facts),
            NumExpr::Count(of, facts) => {
                let all = self.local(ValType::F64);
                self.put().f64_const(0.0.into()).local_set(all);
                self.places(facts, |code| {
                    code.put().local_get(all);
                    code.bool(of);
                    code.put().f64_convert_i32_u().f64_add().local_set(all);
                });
                self.put().local_get(all);
            }
            NumExpr::Line(of, points, reason) => self.line(of, points, *reason),
            NumExpr::ByWord(fact, words, reason) => {
                let [word, value] = [(); 2].map(|()| self.local(ValType::F64));
                self.fact(*fact, GET);
                self.put().local_set(word).f64_const(f64::NAN.into()).local_set(value);
                for (index, number) in words {
                    self.put().local_get(word).f64_const(f64::from(*index).into()).f64_eq().if_(BlockType::Empty);
                    self.put().f64_const((*number).into()).local_set(value).end();
                }
                self.put().local_get(value).local_get(value).f64_ne().if_(BlockType::Empty);
                self.note_why(*reason);
                self.put().end().local_get(value);
            }
            NumExpr::If(when, a, b) => {
                self.bool(when);
                self.put().if_(BlockType::Result(ValType::F64));
                self.num(a);
                self.put().else_();
                self.num(b);
                self.put().end();
            }
        }
    }

    fn of(&mut self, op: Op, a: &NumExpr, b: &NumExpr) {
        self.num(a);
        self.num(b);
        match op {
            Op::Add => {
                self.put().f64_add();
            }
            Op::Sub => {
                self.put().f64_sub();
            }
            Op::Mul => {
                self.put().f64_mul();
            }
            Op::Min | Op::Max => {
                let (first, second) = (self.local(ValType::F64), self.local(ValType::F64));
                self.put().local_set(second).local_set(first);
                for local in [first, second] {
                    self.put().local_get(local).local_get(local).f64_ne().if_(BlockType::Empty);
                    self.note(NO_NUMBER);
                    self.put().end();
                }
                self.put().local_get(first).local_get(second).local_get(first).local_get(second);
                let mut put = self.put();
                if op == Op::Min {
                    put.f64_lt()
                } else {
                    put.f64_gt()
                };
                put.select();
            }
        }
    }

    /// Leaves an i32 on the stack, 0 or 1.
    pub(crate) fn bool(&mut self, bool: &BoolExpr) {
        match bool {
            BoolExpr::Const(value) => {
                self.put().i32_const(i32::from(*value));
            }
            BoolExpr::Flag(fact) => {
                self.fact(*fact, GET);
                self.put().f64_const(0.5.into()).f64_gt();
            }
            BoolExpr::Has(fact) => self.fact(*fact, THERE),
            BoolExpr::Cmp(cmp, a, b) => {
                self.num(a);
                self.num(b);
                let mut put = self.put();
                match cmp {
                    Cmp::Less => put.f64_lt(),
                    Cmp::LessOrSame => put.f64_le(),
                    Cmp::More => put.f64_gt(),
                    Cmp::MoreOrSame => put.f64_ge(),
                    Cmp::Same => put.f64_eq(),
                    Cmp::Other => put.f64_ne(),
                };
            }
            BoolExpr::Is(fact, words) => {
                self.fact(*fact, GET);
                let words: Vec<NumExpr> = words.iter().map(|w| NumExpr::Const(f64::from(*w))).collect();
                self.among(&words);
            }
            BoolExpr::OneOf(of, others) => {
                self.num(of);
                self.among(others);
            }
            BoolExpr::Every(of, facts) => self.each(of, facts, true),
            BoolExpr::Any(of, facts) => self.each(of, facts, false),
            BoolExpr::Same(a, b) => {
                self.bool(a);
                self.bool(b);
                self.put().i32_eq();
            }
            BoolExpr::Not(of) => {
                self.bool(of);
                self.put().i32_eqz();
            }
            BoolExpr::And(a, b) => self.both(a, b, false),
            BoolExpr::Or(a, b) => self.both(a, b, true),
            BoolExpr::If(when, a, b) => {
                self.bool(when);
                self.put().if_(BlockType::Result(ValType::I32));
                self.bool(a);
                self.put().else_();
                self.bool(b);
                self.put().end();
            }
        }
    }

    /// Whether what is on the stack is one of these.
    fn among(&mut self, others: &[NumExpr]) {
        let of = self.local(ValType::F64);
        self.put().local_set(of).i32_const(0);
        for other in others {
            self.num(other);
            self.put().local_get(of).f64_eq().i32_or();
        }
    }

    /// `&&`, or `||` where `decides` is true: a side that decides does so whatever is wrong with the other.
    fn both(&mut self, a: &BoolExpr, b: &BoolExpr, decides: bool) {
        if a.is_certain() {
            // the common `has({fact}) && ..`: the right side counts only where the left does not decide
            self.bool(a);
            if decides {
                self.put().i32_eqz();
            }
            self.put().if_(BlockType::Result(ValType::I32));
            self.bool(b);
            self.put().else_().i32_const(i32::from(decides)).end();
            return;
        }
        let [before, value, error, decided] = [(); 4].map(|()| self.local(ValType::I32));
        self.put().global_get(ERROR).local_set(before).i32_const(0).global_set(ERROR);
        // whether this side decides: it has no error, and is what decides
        let side = |code: &mut Self| {
            code.put().local_set(value).global_get(ERROR).i32_eqz().local_get(value);
            if !decides {
                code.put().i32_eqz();
            }
            code.put().i32_and();
        };
        self.bool(a);
        side(self);
        self.put().local_set(decided).global_get(ERROR).local_set(error).i32_const(0).global_set(ERROR);
        self.bool(b);
        side(self);
        self.put().local_get(decided).i32_or().local_set(decided);
        self.put().local_get(error).global_get(ERROR).i32_or();
        // an error counts only where nothing is decided
        self.put().i32_const(0).local_get(decided).i32_eqz().i32_sub().i32_and();
        self.put().local_get(before).i32_or().global_set(ERROR).local_get(decided);
        if !decides {
            self.put().i32_eqz();
        }
    }
}
