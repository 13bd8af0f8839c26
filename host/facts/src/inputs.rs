//! The inputs of a model that takes many, by name: a struct with a field for each, its facts, and what they must be.

/// As [`InputSpec::optional`](crate::typed::InputSpec::optional): without it the model gives nothing.
pub(crate) const NEEDED: bool = false;
/// The model takes it if it is there.
pub(crate) const OPTIONAL: bool = true;

/// A struct with something of each input of a model, its fact or its value: name, fact, dimension, and whether it may be
/// absent. Their order is that of the list, and nobody else's business.
macro_rules! named_inputs {
    ($(#[$doc:meta])* $inputs:ident { $($name:ident: $fact:literal, $dimension:literal, $optional:ident;)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy)]
        pub(super) struct $inputs<T> {
            $(pub(super) $name: T,)*
        }

        impl $inputs<&'static str> {
            /// The fact of each.
            #[allow(dead_code, reason = "not every model asks for all of this")]
            pub(super) const FACTS: Self = Self { $($name: $fact,)* };
        }

        impl $inputs<(&'static str, $crate::typed::InputSpec)> {
            /// The fact of each, and what it must be.
            pub(super) const NEEDS: Self = Self {
                $($name: (
                    $fact,
                    $crate::typed::InputSpec::new($dimension, $crate::inputs::$optional),
                ),)*
            };
        }

        impl $inputs<()> {
            /// How many there are.
            pub(super) const COUNT: usize = [$($fact),*].len();
        }

        impl<T: Copy> $inputs<T> {
            /// As a formula is given them.
            pub(super) const fn in_order(self) -> [T; $inputs::<()>::COUNT] {
                [$(self.$name),*]
            }
            /// From what a formula is given; nothing where it is not as many.
            pub(super) fn of(inputs: &[T]) -> Option<Self> {
                let [$($name),*] = inputs else { return None };
                Some(Self { $($name: *$name,)* })
            }
            /// Something of each.
            #[allow(dead_code, reason = "not every model asks for all of this")]
            pub(super) fn map<U>(self, of: impl Fn(T) -> U) -> $inputs<U> {
                $inputs { $($name: of(self.$name),)* }
            }
        }
    };
}
pub(crate) use named_inputs;
