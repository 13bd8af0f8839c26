//! Names for what a rule judges, says and gives as its reason. Over the border each is a number, its place in the rule's
//! list; in the rule it is a name beside its words, and one that is not there does not compile.

/// Names the texts of a rule that has several: the list `TEXTS`, and one `text::NAME` each. A constant that has the name
/// already needs nothing more.
///
/// ```
/// use thou_sdk::prelude::*;
/// texts![
///     SHOP = Text::new("our band").low("Dress the thrust face."),
///     CARD = Text::card("the card's band", "bearing card"),
/// ];
/// reasons![ROLLER = "a crank in rollers is located by them"];
/// judges![MAIN = "main.crush", ROD = "rod.crush"];
///
/// assert_eq!((TEXTS.len(), REASONS.len(), JUDGES), (2, 1, &["main.crush", "rod.crush"][..]));
/// let window = Window::at_least(thou(1.0)).judging(judged::ROD).text(text::CARD);
/// assert_eq!((window.fact, window.text), (1, 1));
/// assert_ne!(Window::new().judging(judged::MAIN).text(text::SHOP), window);
/// assert_eq!(NotApplicable(reason::ROLLER), NotApplicable(ReasonNumber(0)));
/// ```
///
/// A text is no reason:
/// ```compile_fail,E0308
/// use thou_sdk::prelude::*;
/// texts![SHOP = Text::new("our band")];
/// let _ = NotApplicable(text::SHOP);
/// ```
#[macro_export]
macro_rules! texts {
    ($($name:ident $(= $text:expr)?),* $(,)?) => {
        const TEXTS: &[$crate::Text] = &[$($crate::names!(@value $name $(= $text)?)),*];
        $crate::names!(@numbers text TextNumber $($name)*);
    };
}

/// Names a rule's reasons for not saying: the list `REASONS`, and one `reason::NAME` each; see [`texts!`](crate::texts).
#[macro_export]
macro_rules! reasons {
    ($($name:ident $(= $reason:expr)?),* $(,)?) => {
        const REASONS: &[&str] = &[$($crate::names!(@value $name $(= $reason)?)),*];
        $crate::names!(@numbers reason ReasonNumber $($name)*);
    };
}

/// Names what a rule judges where that is more than one fact: the list `JUDGES`, and one `judged::NAME` each; see
/// [`texts!`](crate::texts).
#[macro_export]
macro_rules! judges {
    ($($name:ident = $fact:expr),* $(,)?) => {
        const JUDGES: &[&str] = &[$($fact),*];
        $crate::names!(@numbers judged JudgedNumber $($name)*);
    };
}

/// What [`texts!`](crate::texts), [`reasons!`](crate::reasons) and [`judges!`](crate::judges) share.
#[doc(hidden)]
#[macro_export]
macro_rules! names {
    (@value $name:ident) => { $name };
    (@value $name:ident = $value:expr) => { $value };
    (@numbers $module:ident $number:ident $($name:ident)*) => {
        mod $module {
            #[allow(non_camel_case_types, clippy::upper_case_acronyms)]
            #[repr(u32)]
            enum Place { $($name),* }
            $(pub(super) const $name: $crate::$number = $crate::$number(Place::$name as u32);)*
        }
    };
}

/// Declares a pack's rules in the order of the job: a module `src/NAME.rs` each, with its constant `RULE`, and the list
/// `RULES` of all. One line here and one file make a rule.
#[macro_export]
macro_rules! rules {
    ($($rule:ident),* $(,)?) => {
        $(mod $rule;)*
        /// Every rule of this pack, in the order of the job.
        static RULES: &[&$crate::Rule] = &[$(&$rule::RULE),*];
    };
}
