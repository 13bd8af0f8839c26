//! Between the records of an answer and those that bindings make of the contract's WIT, for both sides of the border.

/// Converts, both ways, between [`crate::answer`]'s records and those of the generated module that is named, which has to
/// be one of the crate's own. Bindings are generated in the kit and in the host, and nowhere else can know their types.
#[macro_export]
macro_rules! border_records {
    ($($module:ident)::+) => {
        const _: () = {
            use $($module)::+ as records;
            use $crate::Level;
            use $crate::answer::{Finding, OutcomeState, Raw, RuleOutcome, Said, Service, Step, Window};

            $crate::border_records!(@words Level { Hold, Warn, Note });
            $crate::border_records!(@said Finding { level, place, text });
            $crate::border_records!(@said Service { place, meter, low, nominal, high, text });
            $crate::border_records!(@said Step { place, text });
            $crate::border_records!(@said Window {
                fact, place, never_below, low, aim, high, never_above, below, above, reuse, text
            });
            $crate::border_records!(@lists { outcomes, windows, findings, services, steps });

            impl From<RuleOutcome> for records::Outcome {
                fn from(RuleOutcome { rule, state }: RuleOutcome) -> Self {
                    let (state, reason) = match state {
                        OutcomeState::Answered => (records::State::Answered, 0),
                        OutcomeState::Clear => (records::State::Clear, 0),
                        OutcomeState::NotApplicable(reason) => (records::State::NotApplicable, reason),
                        OutcomeState::CannotSay(reason) => (records::State::CannotSay, reason),
                    };
                    Self { rule, state, reason }
                }
            }
            impl From<records::Outcome> for RuleOutcome {
                fn from(records::Outcome { rule, state, reason }: records::Outcome) -> Self {
                    let state = match state {
                        records::State::Answered => OutcomeState::Answered,
                        records::State::Clear => OutcomeState::Clear,
                        records::State::NotApplicable => OutcomeState::NotApplicable(reason),
                        records::State::CannotSay => OutcomeState::CannotSay(reason),
                    };
                    Self { rule, state }
                }
            }
        };
    };
    (@words $words:ident { $($word:ident),* }) => {
        impl From<$words> for records::$words {
            fn from(word: $words) -> Self {
                match word { $($words::$word => Self::$word),* }
            }
        }
        impl From<records::$words> for $words {
            fn from(word: records::$words) -> Self {
                match word { $(records::$words::$word => Self::$word),* }
            }
        }
    };
    (@said $record:ident { $($field:ident),* }) => {
        impl From<Said<$record, u32>> for records::$record {
            fn from(Said { rule, what: $record { $($field),* }, args: numbers }: Said<$record, u32>) -> Self {
                Self { rule, $($field: $field.into(),)* numbers }
            }
        }
        impl From<records::$record> for Said<$record, u32> {
            fn from(records::$record { rule, $($field,)* numbers }: records::$record) -> Self {
                Self { rule, what: $record { $($field: $field.into()),* }, args: numbers }
            }
        }
    };
    (@lists { $($list:ident),* }) => {
        impl From<Raw> for records::Answer {
            fn from(Raw { $($list,)* numbers }: Raw) -> Self {
                Self { $($list: $list.into_iter().map(Into::into).collect(),)* numbers }
            }
        }
        impl From<records::Answer> for Raw {
            fn from(records::Answer { $($list,)* numbers }: records::Answer) -> Self {
                Self { $($list: $list.into_iter().map(Into::into).collect(),)* numbers }
            }
        }
    };
}
