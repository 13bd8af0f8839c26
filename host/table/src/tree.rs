//! A checked expression: every fact exists, every sum is of things that can be summed.
//!
//! A value may also be an error, as in CEL: a fact that is absent or not read, a division by zero. Errors pass through
//! everything but `&&` and `||` (where the other side decides by itself), `any` and `all` (where another place does) and the
//! branch of `?:` that is not taken.

/// Comes to a number, in SI.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum NumExpr {
    Const(f64),
    Fact(u32),
    /// The window's own low limit or its high one, worked out before the others.
    Own(Side),
    Neg(Box<NumExpr>),
    Abs(Box<NumExpr>),
    Of(Op, Box<NumExpr>, Box<NumExpr>),
    If(Box<BoolExpr>, Box<NumExpr>, Box<NumExpr>),
    /// A quotient, and the reason that is told where the divisor comes to nothing.
    Div(Box<NumExpr>, Box<NumExpr>, Reason),
    /// The square root, and the reason for what is under zero.
    Sqrt(Box<NumExpr>, Reason),
    /// To a power of so many halves, and the reason where there is none.
    Halves(Box<NumExpr>, i32, Reason),
    /// One figure of every place of these facts.
    Fold(Fold, Box<NumExpr>, Vec<u32>),
    /// At how many places of these facts it holds.
    Count(Box<BoolExpr>, Vec<u32>),
    /// Straight lines between points that rise, and the reason beyond them.
    Line(Box<NumExpr>, Vec<(f64, f64)>, Reason),
    /// By the word of a choice, and the reason for any other.
    ByWord(u32, Vec<(u32, f64)>, Reason),
}

/// The number of a reason of the rule.
pub(crate) type Reason = u32;

/// What is made of all places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Fold {
    Most,
    Least,
    Sum,
    Mean,
}

/// One of the two working limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Side {
    Low,
    High,
}

/// What is made of two numbers. Min and max are CEL's neighbours: an error where they cannot be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Op {
    Add,
    Sub,
    Mul,
    Min,
    Max,
}

/// How two numbers stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cmp {
    Less,
    LessOrSame,
    More,
    MoreOrSame,
    Same,
    Other,
}

/// Comes to yes or no.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum BoolExpr {
    Const(bool),
    Flag(u32),
    /// The sheet has it, at this place.
    Has(u32),
    Cmp(Cmp, NumExpr, NumExpr),
    /// A choice is one of these words of the manifest's list.
    Is(u32, Vec<u32>),
    OneOf(NumExpr, Vec<NumExpr>),
    /// Whether it holds at every place of these facts, or at any.
    Every(Box<BoolExpr>, Vec<u32>),
    Any(Box<BoolExpr>, Vec<u32>),
    Same(Box<BoolExpr>, Box<BoolExpr>),
    Not(Box<BoolExpr>),
    And(Box<BoolExpr>, Box<BoolExpr>),
    Or(Box<BoolExpr>, Box<BoolExpr>),
    If(Box<BoolExpr>, Box<BoolExpr>, Box<BoolExpr>),
}

impl NumExpr {
    /// What it comes to without any fact, if it has none.
    pub(crate) fn constant(&self) -> Option<f64> {
        match self {
            Self::Const(value) => Some(*value),
            Self::Neg(of) => of.constant().map(|v| -v),
            Self::Abs(of) => of.constant().map(f64::abs),
            Self::Of(op, a, b) => {
                let (a, b) = (a.constant()?, b.constant()?);
                Some(match op {
                    Op::Add => a + b,
                    Op::Sub => a - b,
                    Op::Mul => a * b,
                    Op::Min => a.min(b),
                    Op::Max => a.max(b),
                })
            }
            Self::Div(a, b, _) => Some(a.constant()? / b.constant()?),
            Self::Sqrt(of, _) => of.constant().map(f64::sqrt),
            Self::Halves(of, halves, _) => of.constant().map(|v| v.powf(f64::from(*halves) / 2.0)),
            Self::Fact(_)
            | Self::Own(_)
            | Self::If(..)
            | Self::Fold(..)
            | Self::Count(..)
            | Self::Line(..)
            | Self::ByWord(..) => None,
        }
    }
}

impl BoolExpr {
    /// Whether it can never be an error.
    pub(crate) fn is_certain(&self) -> bool {
        match self {
            Self::Const(_) | Self::Has(_) => true,
            Self::Not(of) => of.is_certain(),
            Self::And(a, b) | Self::Or(a, b) => a.is_certain() && b.is_certain(),
            _ => false,
        }
    }
}
