//! Volumes and compression.

use crate::builder::Builder;
use crate::typed::{Si, Why};
use thou_mechanics::geometry::{self, ClearanceVolume};
use thou_mechanics::kinematics::Slider;
use thou_sheet::Axis::{Cylinder, One};
use uom::si::f64::{Angle, Length, Ratio, Volume};

const HEYWOOD: &str = "Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 2.1";

pub(super) fn facts(b: &mut Builder) {
    volumes(b);
    compression(b);
    b.derive(
        "rod-ratio",
        "ratio",
        One,
        "Rod over stroke.",
        "ratio of two lengths",
        ["rod.length", "stroke"],
        |rod: Length, stroke: Length| -> Ratio { rod / stroke },
    );
    b.derive(
        "bore-stroke-ratio",
        "ratio",
        One,
        "Bore over stroke.",
        "ratio of two lengths",
        ["bore.nominal", "stroke"],
        |bore: Length, stroke: Length| -> Ratio { bore / stroke },
    );
}

fn volumes(b: &mut Builder) {
    b.derive(
        "swept-volume",
        "volume",
        One,
        "Swept volume of one cylinder.",
        "pi/4 B² S; Heywood 1988, section 2.2",
        ["bore.nominal", "stroke"],
        |bore: Length, stroke: Length| Volume::si(geometry::swept_volume(bore.value, stroke.value)),
    );
    b.derive(
        "displacement",
        "volume",
        One,
        "Swept volume of all cylinders.",
        "swept volume by cylinders",
        ["swept-volume", "engine.cylinders"],
        |swept: Volume, cylinders: Ratio| -> Volume { swept * cylinders },
    );
    b.derive(
        "gasket.volume",
        "volume",
        One,
        "Volume inside the gasket.",
        "pi/4 of the gasket's bore squared by its thickness",
        ["gasket.bore", "gasket.thickness"],
        |bore: Length, thickness: Length| Volume::si(geometry::disc(bore.value, thickness.value)),
    );
    b.derive(
        "deck.volume",
        "volume",
        Cylinder,
        "Volume above the piston at top dead centre, up to the deck; negative where it stands proud.",
        "pi/4 B² by deck clearance",
        ["bore.nominal", "deck-clearance"],
        |bore: Length, deck: Length| Volume::si(geometry::disc(bore.value, deck.value)),
    );
    b.derive(
        "crevice.volume",
        "volume",
        One,
        "Volume round the top land, down to the top ring.",
        "pi/4 (B² - D²) h; Heywood 1988, section 8.6",
        ["bore.nominal", "piston.top-land-diameter", "piston.top-land-height"],
        |bore: Length, land: Length, height: Length| {
            Volume::si(geometry::crevice_volume(bore.value, land.value, height.value))
        },
    );
    b.derive(
        "clearance-volume",
        "volume",
        Cylinder,
        "Volume above the piston at top dead centre, without the crevice round the top land.",
        "chamber, gasket, deck and dish less dome",
        ["chamber.volume", "gasket.volume", "deck.volume", "piston.dish", "piston.dome"],
        |chamber: Volume, gasket: Volume, deck: Volume, dish: Option<Volume>, dome: Option<Volume>| {
            if dish.is_none() && dome.is_none() {
                // a flat top has pockets or says 0 cc
                return Err(Why::Field("pistons.dish-volume"));
            }
            let volume = ClearanceVolume {
                chamber: chamber.value,
                gasket: gasket.value,
                deck: deck.value,
                dish: dish.map_or(0.0, |d| d.value),
                dome: dome.map_or(0.0, |d| d.value),
                crevice: 0.0,
            }
            .sum();
            Ok(Volume::si(volume))
        },
    );
}

fn compression(b: &mut Builder) {
    b.derive(
        "compression",
        "ratio",
        Cylinder,
        "Compression ratio, without the crevice round the top land.",
        HEYWOOD,
        ["swept-volume", "clearance-volume"],
        |swept: Volume, clearance: Volume| Ratio::si(geometry::compression(swept.value, clearance.value)),
    );
    b.derive(
        "compression.with-crevice",
        "ratio",
        Cylinder,
        "Compression ratio with the crevice round the top land: about a tenth less.",
        HEYWOOD,
        ["swept-volume", "clearance-volume", "crevice.volume"],
        |swept: Volume, clearance: Volume, crevice: Volume| {
            Ratio::si(geometry::compression(swept.value, (clearance + crevice).value))
        },
    );
    b.derive(
        "compression.effective",
        "ratio",
        One,
        "Compression from where the inlet valve is shut, mean of the cylinders: geometry only, no ram.",
        "exact slider-crank; Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, on late closing",
        ["compression.mean", "intake-closing", "stroke", "rod.length"],
        |ratio: Ratio, closing: Angle, stroke: Length, rod: Length| {
            let slider = Slider::new(stroke.value, rod.value);
            geometry::effective_compression(slider, ratio.value, closing.value)
                .map(Ratio::si)
                .map_err(|_| Why::Outside("this rod cannot follow this crank"))
        },
    );
}
