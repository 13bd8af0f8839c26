//! Air, fuel and what they do in the cylinder and on the dyno.

use crate::draw::{Draw, Told, fields, told, walks};
use crate::parts::FUELS;
use crate::shapes::slider;
use thou_mechanics::charge;
use thou_mechanics::combustion_air::{self as air, BlendPart, Composition};
use thou_mechanics::cycle::{self, Burn, Charge, Cycle, Cylinder, Exchange, Friction, Near, NoCycle, Setup, Walls};
use thou_mechanics::dyno_air::{self, Air, Corrected, Standard};
use thou_mechanics::dyno_room;
use thou_mechanics::gas::{self, Blend, Gas};
use thou_mechanics::ideal::{self, ConstantVolume};
use thou_mechanics::knock::{self, EndGas, Octane};
use thou_mechanics::species::Species;
use thou_mechanics::standard_atmosphere;

fields! {
    Composition: carbon, hydrogen, oxygen, nitrogen;
    Friction: constant, peak, speed, speed_squared;
    Near: mass, brake, friction;
    EndGas: temperature, pressure, at_hundred;
    Blend: iso_octane, toluene, ethanol, methanol;
    Corrected: power;
}

impl crate::draw::Answer for Gas {
    fn tell(self, told: &mut Told) {
        told.numbers.extend([self.constant, self.heat_capacity(400.0), self.enthalpy(2_000.0), self.entropy(900.0)]);
    }
}
impl crate::draw::Answer for Octane {
    fn tell(self, told: &mut Told) {
        let (Self::Within(n) | Self::Below(n) | Self::Above(n)) = self;
        told.numbers.push(n);
    }
}
/// Its temperatures have no number while a valve is open.
impl crate::draw::Answer for Cycle {
    fn tell(self, told: &mut Told) {
        told.numbers.extend(self.pressures());
        let closed = self.temperatures().iter().filter(|t| !t.is_nan());
        told.numbers.extend(closed);
        told.numbers.extend([self.mass, self.peak, self.peak_angle, self.indicated, self.pumping, self.heat]);
        told.numbers.extend([self.closed_work, self.closing_pressure, self.opening_pressure]);
    }
}

const SPECIES: [Species; 11] = [
    Species::N2,
    Species::O2,
    Species::Ar,
    Species::CO2,
    Species::H2O,
    Species::CO,
    Species::H2,
    Species::C8H18,
    Species::C7H8,
    Species::C2H5OH,
    Species::CH3OH,
];

fn composition(d: &mut Draw) -> Composition {
    Composition::of(d.between(1.0, 12.0), d.between(2.0, 26.0), d.between(0.0, 2.0), d.between(0.0, 1.0))
}

fn parts(d: &mut Draw) -> Vec<BlendPart> {
    (0..d.whole(1, 5))
        .map(|_| BlendPart { volume: d.over(1e-3, 1.0), density: d.over(500.0, 2e3), ratio: d.over(1.0, 20.0) })
        .collect()
}

fn some_gas(d: &mut Draw) -> Gas {
    let of: Vec<(Species, f64)> = (0..d.whole(1, 6)).map(|_| (d.one(&SPECIES), d.over(1e-3, 10.0))).collect();
    Gas::mixture(&of)
}

fn kelvin(d: &mut Draw) -> f64 {
    d.over(200.0, 6_000.0)
}

fn blend(d: &mut Draw) -> Blend {
    Blend {
        iso_octane: d.over(1e-3, 1.0),
        toluene: d.over(1e-3, 1.0),
        ethanol: d.between(0.0, 1.0),
        methanol: d.between(0.0, 1.0),
    }
}

fn some_air(d: &mut Draw) -> Air {
    Air { barometer: d.over(6e4, 1.1e5), temperature: d.between(274.0, 325.0), humidity: d.share() }
}

fn setup(d: &mut Draw) -> Setup {
    let (slider, bore) = (slider(d), d.over(0.05, 0.15));
    let fuel = Blend::PETROL;
    let clearance = 2.0 * slider.radius * bore * bore * 0.785 / (d.between(8.0, 15.0) - 1.0);
    let cylinder = Cylinder {
        bore,
        slider,
        clearance,
        crevice: clearance * d.between(0.0, 0.03),
        inlet_closing: d.between(0.6, 1.3),
        exhaust_opening: d.between(0.6, 1.4),
    };
    let richness = d.between(0.9, 1.3);
    Setup {
        cylinder,
        charge: Charge {
            unburned: fuel.mixed(richness),
            burned: fuel.burned(richness),
            temperature: d.between(300.0, 400.0),
        },
        burn: Burn {
            half: d.between(0.0, 0.3),
            duration: d.between(0.6, 1.4),
            form: d.between(1.5, 3.0),
            efficiency: d.between(0.9, 1.0),
        },
        walls: Walls { temperature: d.between(380.0, 520.0), scale: d.between(0.5, 2.0) },
        exchange: Exchange { inlet: d.over(5e4, 3e5), exhaust: d.over(9e4, 3e5) },
        speed: d.between(100.0, 1_000.0),
    }
}

fn filled(d: &mut Draw) -> (Setup, Result<Cycle, NoCycle>) {
    let setup = setup(d);
    let swept = 2.0 * setup.cylinder.slider.radius * setup.cylinder.bore * setup.cylinder.bore * 0.785;
    let cycle = setup.with_mass(swept * d.between(0.4, 1.5));
    (setup, cycle)
}

fn of_cycle<T: crate::draw::Answer>(d: &mut Draw, of: impl Fn(&Cycle, &mut Draw) -> T) -> Told {
    match filled(d).1 {
        Ok(cycle) => told(of(&cycle, d)),
        Err(why) => told(Err::<f64, _>(why)),
    }
}

fn friction(d: &mut Draw) -> Friction {
    Friction::USUAL.scaled(d.between(0.5, 2.0))
}

fn burn(d: &mut Draw) -> Burn {
    setup(d).burn
}

fn constant_volume(d: &mut Draw) -> ConstantVolume {
    let (pressure, volume) = (d.over(1e4, 1e6), d.over(1e-5, 1e-2));
    ConstantVolume {
        pressure,
        volume,
        compression: d.between(1.5, 30.0),
        gamma: d.between(1.05, 1.7),
        heat: d.over(1.0, 1e5),
    }
}

fn states(d: &mut Draw) -> Vec<(f64, f64)> {
    (0..d.whole(0, 30)).map(|_| (d.over(1e5, 2e7), d.between(300.0, 1_200.0))).collect()
}

fn end_gas(d: &mut Draw) -> EndGas {
    EndGas { temperature: 900.0, pressure: 5e6, at_hundred: d.over(1e-3, 10.0) }
}

walks! { d:
    "species::Species::molar_mass" => d.one(&SPECIES).molar_mass();
    "species::Species::polynomials" => d.one(&SPECIES).polynomials();
    "gas::Gas::mixture" => some_gas(d);
    "gas::Gas::with" => some_gas(d).with(&some_gas(d), d.share());
    "gas::Gas::heat_capacity" => some_gas(d).heat_capacity(kelvin(d));
    "gas::Gas::enthalpy" => some_gas(d).enthalpy(kelvin(d));
    "gas::Gas::energy" => some_gas(d).energy(kelvin(d));
    "gas::Gas::entropy" => some_gas(d).entropy(kelvin(d));
    "gas::Gas::gamma" => some_gas(d).gamma(kelvin(d));
    "gas::Gas::isentropic" => some_gas(d).isentropic(d.between(300.0, 800.0), d.between(0.5, 10.0));
    "gas::air" => gas::air();
    "gas::air_molar_mass" => gas::air_molar_mass();
    "gas::water_gas" => gas::water_gas(kelvin(d));
    "gas::Blend::petrol_with_ethanol" => Blend::petrol_with_ethanol(d.share());
    "gas::Blend::mass" => blend(d).mass();
    "gas::Blend::hydrogen_to_carbon" => blend(d).hydrogen_to_carbon();
    "gas::Blend::stoichiometric" => blend(d).stoichiometric();
    "gas::Blend::mixed" => blend(d).mixed(d.between(0.0, 2.0));
    "gas::Blend::burned" => blend(d).burned(d.between(0.0, 1.4));
    "gas::Blend::heating_value" => blend(d).heating_value();
    "charge::compressed" => charge::compressed(&gas::air(), d.between(230.0, 330.0), d.between(1.0, 6.0), d.between(0.3, 1.0));
    "charge::cooled" => charge::cooled(d.between(250.0, 600.0), d.between(250.0, 350.0), d.share());
    "charge::evaporation" => charge::evaporation(d.over(1e5, 2e6), d.over(0.01, 1.0), d.over(700.0, 2e3));
    "charge::air_at" => charge::air_at(d.between(-1_000.0, 11_000.0));
    "ideal::efficiency" => ideal::efficiency(d.between(1.1, 40.0), d.between(1.05, 1.7));
    "ideal::ConstantVolume::compressed" => constant_volume(d).compressed();
    "ideal::ConstantVolume::peak" => constant_volume(d).peak();
    "ideal::ConstantVolume::indicated" => constant_volume(d).indicated();
    "burn::Burn::wiebe" => Burn::wiebe(d.between(-1.0, 3.0), d.between(0.0, 6.0));
    "burn::Burn::progress" => Burn::progress(d.between(0.0, 0.999), d.between(0.0, 6.0));
    "burn::Burn::start" => burn(d).start();
    "burn::Burn::whole" => Burn::whole(d.between(0.1, 2.0), d.between(0.0, 6.0));
    "setup::Friction::scaled" => friction(d).scaled(d.between(0.0, 3.0));
    "setup::Friction::mean_pressure" => friction(d).mean_pressure(d.over(1e5, 3e7), d.over(1.0, 40.0));
    "cycle::Near::of" => of_cycle(d, |c, d| Near::of(c, &friction(d)));
    "cycle::Setup::with_mass" => filled(d).1;
    "cycle::Setup::at_brake" => setup(d).at_brake(d.between(3e5, 2e6), &friction(d));
    "cycle::Setup::at_brake_near" => {
        let (setup, cycle) = filled(d);
        let friction = friction(d);
        match cycle {
            Ok(cycle) => {
                let near = Near::of(&cycle, &friction);
                told(setup.at_brake_near((near.brake * d.between(0.9, 1.1)).max(1e5), &friction, &near))
            }
            Err(why) => told(Err::<f64, _>(why)),
        }
    };
    "trace::Cycle::pressure" => of_cycle(d, |c, d| c.pressure(d.angle()));
    "trace::Cycle::pressures" => of_cycle(d, |c, _| c.pressures().to_vec());
    "trace::Cycle::temperatures" => of_cycle(d, |c, _| c.temperatures().iter().filter(|t| !t.is_nan()).count());
    "trace::Cycle::brake" => of_cycle(d, |c, d| c.brake(&friction(d)));
    "trace::Cycle::friction" => of_cycle(d, |c, d| c.friction(&friction(d)));
    "cycle::volumetric_efficiency" => cycle::volumetric_efficiency(d.over(1e-5, 1e-2), d.between(0.0, 0.3), d.between(0.0, 0.3), d.over(1e-5, 1e-2), d.over(0.5, 5.0));
    "knock::delay" => knock::delay(d.between(60.0, 120.0), d.over(1e5, 3e7), d.between(300.0, 1_500.0));
    "knock::integral" => knock::integral(d.between(60.0, 120.0), d.over(1e-6, 1e-3), states(d));
    "knock::EndGas::follow" => {
        let (setup, cycle) = filled(d);
        cycle.map(|c| EndGas::follow(&c, &setup.charge.unburned, setup.charge.temperature, setup.burn.start() + setup.burn.duration, setup.speed))
    };
    "knock::EndGas::integral" => end_gas(d).integral(d.between(60.0, 120.0));
    "knock::EndGas::octane_needed" => end_gas(d).octane_needed();
    "knock::octane_index" => knock::octane_index(d.between(60.0, 130.0), d.between(60.0, 120.0), d.between(-1.0, 1.0));
    "knock::cranking_pressure" => knock::cranking_pressure(d.over(5e4, 3e5), d.between(1.0, 20.0), d.between(1.0, 1.4));
    "combustion_air::Composition::of" => composition(d);
    "combustion_air::Composition::molar_mass" => composition(d).molar_mass();
    "combustion_air::Composition::oxygen_need" => composition(d).oxygen_need();
    "combustion_air::Composition::stoichiometric_ratio" => composition(d).stoichiometric_ratio();
    "combustion_air::blend_ratio" => air::blend_ratio(&parts(d));
    "combustion_air::mass_share" => air::mass_share(&parts(d));
    "combustion_air::ethanol_blend" => air::ethanol_blend(d.share());
    "combustion_air::ethanol_blend_latent_heat" => air::ethanol_blend_latent_heat(d.share());
    "combustion_air::usual_ethanol" => air::usual_ethanol(d.one(&FUELS), d.rng.bool());
    "combustion_air::usual_lambda" => air::usual_lambda(d.one(&FUELS), d.rng.bool());
    "combustion_air::latent_heat" => air::latent_heat(d.one(&FUELS));
    "combustion_air::heating_value" => air::heating_value(d.one(&FUELS));
    "combustion_air::for_the_air" => air::for_the_air(d.over(1e5, 5e7), d.over(0.5, 30.0));
    "combustion_air::charge_cooling" => air::charge_cooling(d.over(1e5, 2e6), d.over(0.5, 30.0), d.share());
    "combustion_air::air_need" => air::air_need(d.over(1e-5, 1.0), d.over(1.0, 20.0), d.over(0.5, 1.5));
    "combustion_air::injector_flow" => air::injector_flow(d.over(1e-6, 1.0), d.over(1e5, 1e6), d.between(0.0, 1e7));
    "combustion_air::injector_duty" => air::injector_duty(d.over(1e-6, 1.0), d.between(1.0, 16.0), d.over(1e-6, 1.0));
    "combustion_air::injector_margin" => air::injector_margin(d.over(1e-6, 1.0), d.between(1.0, 16.0), d.over(1e-6, 1.0));
    "combustion_air::jet_flow" => air::jet_flow(d.over(1e-4, 1e-2), d.share(), d.between(0.0, 1e7), d.over(500.0, 2e3));
    "dyno_air::saturation_pressure" => dyno_air::saturation_pressure(d.between(273.15, 647.0));
    "dyno_air::saturation_pressure_magnus" => dyno_air::saturation_pressure_magnus(d.between(229.0, 333.0));
    "dyno_air::Air::vapour" => some_air(d).vapour();
    "dyno_air::Air::dry" => some_air(d).dry();
    "dyno_air::Air::density" => some_air(d).density();
    "dyno_air::Standard::id" => d.one(&Standard::ALL).id();
    "dyno_air::Standard::by_id" => Standard::by_id(d.one(&Standard::ALL).id()).map(|_| ());
    "dyno_air::Standard::withdrawn" => d.one(&Standard::ALL).withdrawn();
    "dyno_air::Standard::validity" => d.one(&Standard::ALL).validity().map_or((), |_| ());
    "dyno_air::Standard::factor" => d.one(&Standard::ALL).factor(some_air(d));
    "dyno_air::Standard::valid" => d.one(&Standard::ALL).valid(Air { barometer: d.between(98.5e3, 99.5e3), temperature: d.between(295.0, 300.0), humidity: d.between(0.0, 0.1) });
    "dyno_air::Standard::correct" => d.one(&Standard::ALL).correct(d.over(1e3, 1e7), some_air(d));
    "dyno_air::iso_factor" => dyno_air::iso_factor(d.over(5e4, 1.2e5), d.over(250.0, 330.0), d.over(5e4, 1.2e5), d.over(250.0, 330.0));
    "dyno_air::iso_3046_indicated" => dyno_air::iso_3046_indicated(d.over(0.5, 2.0), d.over(0.5, 2.0), d.between(0.0, 2.0), d.between(0.0, 2.0));
    "dyno_air::iso_3046_brake" => dyno_air::iso_3046_brake(d.over(0.5, 2.0), d.over(0.5, 1.0));
    "dyno_air::corrected_with_friction" => dyno_air::corrected_with_friction(d.over(1.0, 1e4), d.over(1.0, 1e3), d.between(0.8, 1.3));
    "dyno_air::Corrected::over" => {
        let (standard, air) = (d.one(&Standard::ALL), some_air(d));
        standard.correct(d.over(1e3, 1e7), air).over(standard.correct(d.over(1e3, 1e7), air))
    };
    "standard_atmosphere::density" => standard_atmosphere::density(d.between(-5e3, 11e3));
    "standard_atmosphere::density_altitude" => standard_atmosphere::density_altitude(d.between(0.37, 1.9));
    "dyno_room::room_air_by_power" => dyno_room::room_air_by_power(d.over(1e3, 1e7));
    "dyno_room::room_air_by_changes" => dyno_room::room_air_by_changes(d.over(1.0, 1e4));
    "dyno_room::room_heat" => dyno_room::room_heat(d.over(1e3, 1e7));
    "dyno_room::room_rise" => dyno_room::room_rise(d.over(1e2, 1e7), d.over(1e-2, 1e3));
    "dyno_room::room_air_for_rise" => dyno_room::room_air_for_rise(d.over(1e2, 1e7), d.over(0.1, 100.0));
    "dyno_room::noise_time" => dyno_room::noise_time(d.between(60.0, 140.0), d.between(80.0, 95.0), d.between(3.0, 5.0));
}
