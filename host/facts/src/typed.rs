//! Typed closures at the edge of the catalogue: quantities carry their dimension, so that adding a length to a pressure
//! does not compile; a unit test holds the closure's dimensions against the kinds of the facts it is fed with.

use uom::si::f64::{
    Acceleration, Angle, AngularVelocity, Area, DynamicViscosity, Force, KinematicViscosity, Length, Mass, MassDensity,
    MassPerEnergy, MassRate, Power, Pressure, Ratio, SurfaceTension, ThermodynamicTemperature, Time, Torque, Velocity,
    Volume, VolumeRate, VolumetricPowerDensity,
};

/// One argument as the engine hands it over.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct InputValue {
    /// SI.
    pub(crate) si: f64,
    /// Where it was before a step aside was taken to see what it weighs: `si` itself but for that.
    pub(crate) centre: f64,
    /// The word of a choice.
    pub(crate) word: &'static str,
    /// Whether there is a value at all.
    pub(crate) there: bool,
}

impl InputValue {
    /// Whether it is moved to see what it weighs.
    pub(crate) fn is_aside(&self) -> bool {
        self.there && self.si.to_bits() != self.centre.to_bits()
    }
}

/// Why a formula gives nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unavailable {
    /// One more field would bring it: its dotted path.
    Field(&'static str),
    /// Outside what it holds for.
    Outside(&'static str),
}

/// What a closure can take.
pub(crate) trait Take {
    /// The dimension that the fact must have.
    const DIMENSION: &'static str;
    /// Whether it may be absent.
    const OPTIONAL: bool = false;
    /// The argument.
    fn take(input: InputValue) -> Self;
}

/// What a closure can give.
pub(crate) trait Give {
    /// The dimension that the fact must have.
    const DIMENSION: &'static str;
    /// SI, or why not.
    fn give(self) -> Result<f64, Unavailable>;
}

/// A word of a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Word(pub(crate) &'static str);
impl Take for Word {
    const DIMENSION: &'static str = "choice";
    fn take(input: InputValue) -> Self {
        Self(input.word)
    }
}

impl<T: Take> Take for Option<T> {
    const DIMENSION: &'static str = T::DIMENSION;
    const OPTIONAL: bool = true;
    fn take(input: InputValue) -> Self {
        input.there.then(|| T::take(input))
    }
}

impl<T: Give> Give for Result<T, Unavailable> {
    const DIMENSION: &'static str = T::DIMENSION;
    fn give(self) -> Result<f64, Unavailable> {
        self.and_then(T::give)
    }
}

/// A quantity made of its SI value.
pub(crate) trait Si {
    /// From SI.
    fn si(value: f64) -> Self;
}

macro_rules! quantities {
    ($($t:ident $dimension:literal),* $(,)?) => { $(
        impl Si for $t {
            fn si(value: f64) -> Self {
                Self { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value }
            }
        }
        impl Take for $t {
            const DIMENSION: &'static str = $dimension;
            fn take(input: InputValue) -> Self { Self::si(input.si) }
        }
        impl Give for $t {
            const DIMENSION: &'static str = $dimension;
            fn give(self) -> Result<f64, Unavailable> { Ok(self.value) }
        }
    )* };
}
quantities!(
    Acceleration "acceleration", Angle "angle", AngularVelocity "angular-speed", Area "area",
    DynamicViscosity "dynamic-viscosity", Force "force", KinematicViscosity "kinematic-viscosity",
    Length "length", Mass "mass", MassDensity "density", MassPerEnergy "specific-consumption", MassRate "mass-flow",
    Power "power", Pressure "pressure", Ratio "one", SurfaceTension "spring-rate",
    ThermodynamicTemperature "temperature", Time "time", Torque "torque", Velocity "speed", Volume "volume",
    VolumeRate "volume-flow", VolumetricPowerDensity "specific-power",
);

/// A difference of temperatures, K: not a temperature.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rise(pub(crate) f64);
impl Take for Rise {
    const DIMENSION: &'static str = "temperature-difference";
    fn take(input: InputValue) -> Self {
        Self(input.si)
    }
}

impl Give for Rise {
    const DIMENSION: &'static str = "temperature-difference";
    fn give(self) -> Result<f64, Unavailable> {
        Ok(self.0)
    }
}

/// A mass by its radius, kg m: no quantity of the library's.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Unbalance(pub(crate) f64);
impl Take for Unbalance {
    const DIMENSION: &'static str = "unbalance";
    fn take(input: InputValue) -> Self {
        Self(input.si)
    }
}
impl Give for Unbalance {
    const DIMENSION: &'static str = "unbalance";
    fn give(self) -> Result<f64, Unavailable> {
        Ok(self.0)
    }
}

/// The dimension of a kind of quantity: several kinds are one dimension.
pub(crate) fn dimension(kind: &'static str) -> &'static str {
    match kind {
        "clearance" | "film" | "gap" | "roughness" | "distance" => "length",
        "count" | "octane" | "passes" | "percent" | "ratio" | "trace" => "one",
        "span" => "time",
        other => other,
    }
}

/// A formula without its types.
pub(crate) type Erased = Box<dyn Fn(&[InputValue]) -> Result<f64, Unavailable> + Send + Sync>;

/// What one argument of a closure wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct InputSpec {
    /// The dimension.
    pub(crate) dimension: &'static str,
    /// Whether it may be absent.
    pub(crate) optional: bool,
    /// Whether it gives a shape alone, and how unsure it is comes in by another input: no step aside of it is asked for.
    pub(crate) shape: bool,
}

impl InputSpec {
    /// One that the formula is asked with steps aside of.
    pub(crate) const fn new(dimension: &'static str, optional: bool) -> Self {
        Self { dimension, optional, shape: false }
    }
    /// The same where it may be absent and gives a shape alone.
    pub(crate) const fn as_shape(self) -> Self {
        Self { optional: true, shape: true, ..self }
    }
}

/// A closure over quantities.
pub(crate) trait Formula<A> {
    /// Its arguments.
    fn wants() -> Vec<InputSpec>;
    /// The dimension of what it gives.
    fn gives() -> &'static str;
    /// Without its types.
    fn erase(self) -> Erased;
}

fn at(inputs: &[InputValue], index: usize) -> InputValue {
    inputs.get(index).copied().unwrap_or_default()
}

macro_rules! arity {
    ($($t:ident $i:tt)*) => {
        impl<F, R: Give, $($t: Take),*> Formula<($($t,)* R,)> for F
        where
            F: Fn($($t),*) -> R + Send + Sync + 'static,
        {
            fn wants() -> Vec<InputSpec> {
                vec![$(InputSpec::new($t::DIMENSION, $t::OPTIONAL)),*]
            }
            fn gives() -> &'static str {
                R::DIMENSION
            }
            fn erase(self) -> Erased {
                Box::new(move |x| self($($t::take(at(x, $i))),*).give())
            }
        }
    };
}
arity!(A 0);
arity!(A 0 B 1);
arity!(A 0 B 1 C 2);
arity!(A 0 B 1 C 2 D 3);
arity!(A 0 B 1 C 2 D 3 E 4);
arity!(A 0 B 1 C 2 D 3 E 4 G 5);
arity!(A 0 B 1 C 2 D 3 E 4 G 5 H 6);
arity!(A 0 B 1 C 2 D 3 E 4 G 5 H 6 I 7);
