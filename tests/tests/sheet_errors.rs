//! What a shop sees when its sheet is wrong: one change to a good sheet each, and the exact words.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use thou::sheet::{Axis, Sheet};

/// A small sheet with nothing wrong.
const GOOD: &str = include_str!("sheets/0417.json");

fn parse(text: &str) -> Result<Sheet, String> {
    Sheet::parse("0417.json", text, Path::new("")).map_err(|faults| faults.to_string())
}

/// The good sheet with one change, and everything that is told about it.
#[track_caller]
fn told(from: &str, to: &str, wanted: &str) {
    assert_eq!(GOOD.matches(from).count(), 1, "{from}");
    let text = GOOD.replace(from, to);
    assert_eq!(parse(&text).err().unwrap_or_default(), wanted);
}

#[test]
fn the_good_sheet_is_good() {
    let sheet = parse(GOOD).unwrap();
    assert_eq!(sheet.places.labels(Axis::Main), ["1", "2", "3", "4", "5"]);
    assert_eq!(sheet.places.pin_of_cylinder, [0, 0, 1, 1, 2, 2, 3, 3]);
}

/// One test a slip: what stands in the good sheet, what stands there instead, and what is told.
macro_rules! slips {
    ($($name:ident: $from:literal => $to:literal, $told:literal;)*) => {
        $(#[test] fn $name() { told($from, $to, $told); })*
    };
}

slips! {
    a_field_misspelt:
        r#""bore": "4.155 in""# => r#""broe": "4.155 in""#,
        r#"0417.json:9:39: block has no field "broe"
    did you mean "bore"?
"#;
    a_section_misspelt:
        r#""block":"# => r#""blok":"#,
        r#"0417.json:9:3: a sheet has no section "blok"
    did you mean "block"?
"#;
    a_reading_misspelt:
        r#""end-play":"# => r#""endplay":"#,
        r#"0417.json:22:5: there is no reading "endplay"
    did you mean "end-play"?
"#;
    a_field_nobody_knows:
        r#""stroke": "3.750 in""# => r#""colour": "red""#,
        r#"0417.json:10:14: crank has no field "colour"
    other things go into "notes", and what a rule pack asks for into "extra"
"#;
    a_field_of_a_two_stroke:
        r#""stroke": "3.750 in""# => r#""premix": "40 to 1""#,
        r#"0417.json:10:14: crank has no field "premix"
    thou judges four-stroke piston engines with spark ignition, single, inline, v and flat: every figure would be wrong for a two-stroke, a diesel or a rotary
"#;
    a_rotary:
        r#""layout": "v""# => r#""layout": "rotary""#,
        r#"0417.json:3:57: engine.layout cannot be "rotary"
    thou judges four-stroke piston engines with spark ignition, single, inline, v and flat: every figure would be wrong for a two-stroke, a diesel or a rotary. It can be single, inline, v, flat
"#;
    a_diesel_by_its_notes:
        r#""layout": "v""# => r#""layout": "v", "notes": "a Diesel block""#,
        r#"0417.json:3:71: engine.notes says "diesel"
    thou judges four-stroke piston engines with spark ignition, single, inline, v and flat: every figure would be wrong for a two-stroke, a diesel or a rotary. If this is none of them, put it in other words
"#;
    a_field_nobody_knows_in_a_small_section:
        r#""passes": "40 passes""# => r#""quarter-miles": "40 passes""#,
        r#"0417.json:28:37: meters has no field "quarter-miles"
    its fields are date, passes, miles, hours, events, notes
"#;
    a_required_field_missing:
        r#""layout": "v", "# => r#""#,
        r#"0417.json:3:13: engine.layout is missing
    write one of single, inline, v, flat (how the cylinders stand)
"#;
    a_required_section_missing:
        r#""intent": { "use": "bracket", "redline": "7200 rpm", "limiter": "7400 rpm", "shift-speed": "7000 rpm" },
"# => r#""#,
        r#"0417.json:1:1: intent is missing
    write "intent": { … } (what the owner wants to do with the engine)
"#;
    another_format:
        r#"thou-build-1"# => r#"thou-build-9"#,
        r#"0417.json:2:13: format is "thou-build-9": this version reads "thou-build-1"
    write "format": "thou-build-1"
"#;
    a_bare_number:
        r#""bore": "4.155 in""# => r#""bore": 4.155"#,
        r#"0417.json:9:47: block.bore is a length: write it with its unit, like "4.1550 in"
"#;
    no_unit:
        r#""bore": "4.155 in""# => r#""bore": "4.155""#,
        r#"0417.json:9:47: block.bore is a length: write it with its unit, like "4.1550 in"
"#;
    a_unit_of_another_kind:
        r#""bore": "4.155 in""# => r#""bore": "4.155 psi""#,
        r#"0417.json:9:47: block.bore is a length; 'psi' is for a pressure
    write in, thou, tenths, mm, µm, um
"#;
    a_unit_nobody_knows:
        r#""bore": "4.155 in""# => r#""bore": "4.155 inches""#,
        r#"0417.json:9:47: block.bore is a length; 'inches' is not a unit of it
    did you mean 'in'?
"#;
    a_unit_from_nowhere:
        r#""bore": "4.155 in""# => r#""bore": "4.155 furlongs""#,
        r#"0417.json:9:47: block.bore is a length; 'furlongs' is not a unit of it
    write in, thou, tenths, mm, µm, um
"#;
    a_decimal_comma:
        r#""bore": "4.155 in""# => r#""bore": "4,155 in""#,
        r#"0417.json:9:47: block.bore is a length; ',155 in' is not a unit of it
    write the decimals after a point, not a comma
"#;
    a_fraction:
        r#""bore": "4.155 in""# => r#""bore": "4 5/32 in""#,
        r#"0417.json:9:47: block.bore is a length; '5/32 in' is not a unit of it
    write fractions as decimals: 1 1/8 in is "1.125 in"
"#;
    words_for_a_size:
        r#""bore": "4.155 in""# => r#""bore": "about four inches""#,
        r#"0417.json:9:47: block.bore is a length, not "about four inches": write it like "4.1550 in"
"#;
    a_section_for_a_size:
        r#""bore": "4.155 in""# => r#""bore": { "front": "4.155 in" }"#,
        r#"0417.json:9:47: block.bore is a length, not a section: write it like "4.1550 in"
"#;
    a_wrong_word:
        r#""material": "grey-iron""# => r#""material": "gray-iron""#,
        r#"0417.json:9:26: block.material cannot be "gray-iron"
    did you mean "grey-iron"? It can be grey-iron, compacted-iron, aluminium-sleeved, aluminium-plated
"#;
    a_word_from_nowhere:
        r#""material": "grey-iron""# => r#""material": "magnesium""#,
        r#"0417.json:9:26: block.material cannot be "magnesium"
    it can be grey-iron, compacted-iron, aluminium-sleeved, aluminium-plated
"#;
    yes_for_true:
        r#""honed-with-plate": true"# => r#""honed-with-plate": "yes""#,
        r#"0417.json:9:106: block.honed-with-plate is "yes", and should be yes or no: write true or false
"#;
    too_many_cylinders:
        r#""cylinders": 8"# => r#""cylinders": 18"#,
        r#"0417.json:3:44: engine.cylinders cannot be 18
    write a whole number from 1 to 16
"#;
    half_a_cylinder:
        r#""cylinders": 8"# => r#""cylinders": 7.5"#,
        r#"0417.json:3:44: engine.cylinders is 7.5, and should be a whole number
"#;
    an_empty_name:
        r#""name": "0417""# => r#""name": """#,
        r#"0417.json:3:23: engine.name is empty
    write what the shop calls this engine
"#;
    a_day_in_words:
        r#""date": "2026-03-14" }"# => r#""date": "14 March 2026" }"#,
        r#"0417.json:3:70: engine.date is a day, not "14 March 2026": write it like "2026-03-14"
"#;
    a_day_that_does_not_exist:
        r#""when": "2026-03-01""# => r#""when": "2026-02-30""#,
        r#"0417.json:16:33: readings.bore.when: the calendar has no 2026-02-30
    write year, month, day, like "2026-03-14"
"#;
    a_bare_number_in_a_row:
        r#"["4.1550 in""# => r#"[4.155"#,
        r#"0417.json:18:15: readings.bore.at.1 #1 is a length: write it with its unit, like "4.1550 in"
"#;
    a_wrong_unit_in_a_row:
        r#"["4.1550 in""# => r#"["4.1550 deg""#,
        r#"0417.json:18:15: readings.bore.at.1 #1 is a length; 'deg' is for an angle
    write in, thou, tenths, mm, µm, um
"#;
    a_cylinder_that_there_is_not:
        r#""2": { "tenths""# => r#""9": { "tenths""#,
        r#"0417.json:19:9: readings.bore: there is no cylinder "9"
    the cylinders are 1, 2, 3, 4, 5, 6, 7, 8
"#;
    a_valve_misspelt:
        r#""1E": "20 thou""# => r#""1X": "20 thou""#,
        r#"0417.json:23:45: readings.lash-cold: there is no valve "1X"
    the valves are 1I, 1E, 2I, 2E, 3I, 3E, 4I, 4E, 5I, 5E, 6I, 6E, 7I, 7E, 8I, 8E
"#;
    a_row_too_long:
        r#""2": { "tenths": [0, 1, -1, null] }"# => r#""2": { "tenths": [0, 1, -1, 0, 0, 0, 0] }"#,
        r#"0417.json:19:14: readings.bore.at.2 has 7 values for 6 points
    the points are top thrust, top axial, mid thrust, mid axial, bottom thrust, bottom axial
"#;
    tenths_of_nothing:
        r#", "master": "4.1550 in","# => r#","#,
        r#"0417.json:19:26: readings.bore.at.2: tenths of what?
    write the "master" the gauge was set to
"#;
    half_a_tenth:
        r#"[0, 1, -1, null]"# => r#"[0, 0.5, -1, null]"#,
        r#"0417.json:19:30: readings.bore.at.2.tenths #2 is 0.5, and should be a whole number
"#;
    a_gauge_misspelt:
        r#""gauge": "bore gauge""# => r#""gauge": "bore guage""#,
        r#"0417.json:16:67: readings.bore.gauge: there is no "bore guage" under gauges
    did you mean "bore gauge"? The gauges are bore gauge, mic 3
"#;
    a_gauge_nobody_has:
        r#""gauge": "bore gauge""# => r#""gauge": "air gauge""#,
        r#"0417.json:16:67: readings.bore.gauge: there is no "air gauge" under gauges
    did you mean "bore gauge"? The gauges are bore gauge, mic 3
"#;
    a_gauge_in_the_wrong_unit:
        r#""resolution": "0.1 thou""# => r#""resolution": "1 lb""#,
        r#"0417.json:6:57: gauges.bore gauge.resolution is a length; 'lb' is for a force
    write in, thou, tenths, mm, µm, um
"#;
    a_gauge_that_is_perfect:
        r#""resolution": "0.1 thou""# => r#""resolution": "0 thou""#,
        r#"0417.json:6:57: gauges.bore gauge.resolution is 0 thou: it must be more than nothing
"#;
    places_for_a_reading_once_an_engine:
        r#""end-play": { "value": "6 thou" }"# => r#""end-play": { "at": { "1": "6 thou" } }"#,
        r#"0417.json:22:19: readings.end-play is read once an engine, not by place
    write "value"
"#;
    one_value_for_a_reading_by_place:
        r#"{ "at": { "1I": "18 thou", "1E": "20 thou" } }"# => r#"{ "value": "18 thou" }"#,
        r#"0417.json:23:20: readings.lash-cold is read at each valve
    write "at": { "1I": … }
"#;
    a_bore_in_the_wrong_unit:
        r#""bore": "4.155 in""# => r#""bore": "4.155 mm""#,
        r#"0417.json:9:47: block.bore cannot be 4.155 mm
    did you mean "4.155 in", or is a decimal place off? It can be from 0.5 in to 20 in
"#;
    a_bore_a_decimal_off:
        r#"["4.1550 in""# => r#"["41.550 in""#,
        r#"0417.json:18:15: readings.bore.at.1 #1 cannot be 41.550 in
    did you mean "41.550 mm", or is a decimal place off? It can be from 0.5 in to 20 in
"#;
    a_clearance_that_cannot_be:
        r#""value": "6 thou""# => r#""value": "6 in""#,
        r#"0417.json:22:28: readings.end-play.value cannot be 6 in
    did you mean "6 thou"? It can be from -20 thou to 100 thou
"#;
    a_stack_that_does_not_fit:
        r#""length": "6.000 in""# => r#""length": "9.000 in""#,
        r#"0417.json:9:74: the piston would stop 2.995 in above the deck
    block.deck-height less half of crank.stroke, rods.length and pistons.compression-height is what is left: one of the four is wrong
"#;
    a_gasket_too_small:
        r#""bore": "4.200 in""# => r#""bore": "1.200 in""#,
        r#"0417.json:13:23: gasket.bore is less than half of block.bore
    is one of them in another unit?
"#;
    a_rod_nine_metres_wide:
        r#""length": "6.000 in""# => r#""length": "6.000 in", "width": "9 m""#,
        r#"0417.json:11:44: rods.width cannot be 9 m
    did you mean "9 mm"? It can be from 0.1 in to 8 in
"#;
    a_redline_that_cannot_be:
        r#""redline": "7200 rpm""# => r#""redline": "72000 rpm""#,
        r#"0417.json:4:44: intent.redline cannot be 72000 rpm
    is a decimal place off? It can be from 500 rpm to 25000 rpm
"#;
    a_limiter_below_the_shift:
        r#""limiter": "7400 rpm""# => r#""limiter": "6400 rpm""#,
        r#"0417.json:4:67: intent.limiter is below intent.shift-speed
    the engine would never reach its shift: are the two swapped?
"#;
    a_single_with_eight:
        r#""layout": "v""# => r#""layout": "single""#,
        r#"0417.json:3:44: engine.cylinders is 8, and engine.layout is single
    a single has 1: is the layout inline, v or flat?
"#;
    names_too_few:
        r#""layout": "v""# => r#""layout": "v", "cylinder-names": ["1", "2"]"#,
        r#"0417.json:3:80: engine.cylinder-names has 2 names for 8 cylinders
    write 8 names, or leave it out
"#;
    names_twice:
        r#""layout": "v""# => r#""layout": "v", "main-names": ["1", "2", "2", "4", "5"]"#,
        r#"0417.json:3:87: engine.main-names has "2" twice
    each name stands for one place
"#;
    crankpins_that_leave_one_out:
        r#""layout": "v""# => r#""layout": "v", "crankpins": [["1", "2"], ["3", "4"], ["5", "6"], ["7"]]"#,
        r#"0417.json:3:75: engine.crankpins leaves out cylinder 8
    each cylinder stands on one crankpin
"#;
    crankpins_with_a_stranger:
        r#""layout": "v""# => r#""layout": "v", "crankpins": [["1", "2"], ["3", "4"], ["5", "6"], ["7", "9"]]"#,
        r#"0417.json:3:118: engine.crankpins names cylinder "9", which there is not
    the cylinders are 1, 2, 3, 4, 5, 6, 7, 8
"#;
    a_firing_order_with_a_gap:
        r#""layout": "v""# => r#""layout": "v", "firing-order": ["1", "8", "4", "3", "6", "5", "7"]"#,
        r#"0417.json:3:78: engine.firing-order is not each cylinder once
    write each of 1, 2, 3, 4, 5, 6, 7, 8 once
"#;
    work_on_a_stranger:
        r#""at": ["1"]"# => r#""at": ["front"]"#,
        r#"0417.json:25:79: work #1.at #1: this engine has no place "front"
    write the name of a cylinder, main, crankpin, bank, valve or cam journal
"#;
    work_nobody_knows:
        r#""did": "honed""# => r#""did": "hone""#,
        r#"0417.json:25:21: work #1.did cannot be "hone"
    did you mean "honed"? It can be bored, honed, decked, heads-milled, line-honed, crank-ground, crank-polished, rods-resized, guides-honed, seats-cut, balanced, part-changed, ran, assembled
"#;
    a_rule_without_its_pack:
        r#""rule": "clearances/piston-to-wall""# => r#""rule": "piston-to-wall""#,
        r#"0417.json:26:26: accepted #1.rule: "piston-to-wall" is not the name of a rule
    write pack/rule, like "clearances/piston-to-wall"
"#;
    an_end_in_words:
        r#""until": "next-freshen""# => r#""until": "next year""#,
        r#"0417.json:26:101: accepted #1.until: "next year" is not an end
    write a day like "2026-03-14", or "next-freshen"
"#;
    nobody_answers:
        r#""by": "R", "until""# => r#""by": "", "until""#,
        r#"0417.json:26:87: accepted #1.by is empty
    write who answers for it
"#;
    a_certificate_that_ends_before_it_starts:
        r#""until": "2028-01-10""# => r#""until": "2020-01-10""#,
        r#"0417.json:27:73: certificates #1 ends before it was given
"#;
    meters_below_nothing:
        r#""40 passes""# => r#""-40 passes""#,
        r#"0417.json:28:47: meters.passes cannot be -40 passes
    it can be from 0 passes to 100000 passes
"#;
    an_event_without_a_day:
        r#""name": "E2", "date": "2026-04-25","# => r#""name": "E2","#,
        r#"0417.json:31:5: calendar #2.date is missing
    write it like "2026-07-18" (its first day)
"#;
    an_event_on_a_day_that_is_not:
        r#""date": "2026-04-25""# => r#""date": "2026-04-31""#,
        r#"0417.json:31:29: calendar #2.date: the calendar has no 2026-04-31
    write year, month, day, like "2026-03-14"
"#;
    an_event_that_ends_before_it_starts:
        r#""last-date": "2026-04-12""# => r#""last-date": "2026-04-10""#,
        r#"0417.json:30:56: calendar #1.last-date: "E1" ends on 2026-04-10, before it starts
"#;
    two_events_of_one_name:
        r#""name": "E2""# => r#""name": "e1""#,
        r#"0417.json:31:15: calendar #2.name: two events are called "e1"
    give each its own name: the plan and the log go by it
"#;
    rounds_in_words:
        r#""time-trials": 2, "rounds": 7"# => r#""time-trials": 2, "rounds": "seven""#,
        r#"0417.json:31:71: calendar #2.rounds is "seven", and should be a whole number: write it without quotes
"#;
    a_lead_time_without_its_unit:
        r#""order": "10 days""# => r#""order": "10""#,
        r#"0417.json:33:48: lead-times.roller lifters.order is a span of time: write it with its unit, like "18 months"
"#;
    a_lead_time_that_is_a_life:
        r#""order": "10 days""# => r#""order": "10 years""#,
        r#"0417.json:33:48: lead-times.roller lifters.order is over three years
    write how long it takes to come, not how long it lasts
"#;
    a_cost_without_a_number:
        r#""planned": 400"# => r#""planned": "dear""#,
        r#"0417.json:34:67: costs.parts.valve springs.planned is "dear", and should be a number: write it without quotes and without a unit
"#;
    a_cost_that_is_missing:
        r#""planned": 400, "failure""# => r#""failure""#,
        r#"0417.json:34:54: costs.parts.valve springs.planned is missing
    write it like 400 (the parts or the send-out bill of a planned change, without the hours, 0 or more)
"#;
    a_failure_that_costs_nothing_more:
        r#""failure": 15000"# => r#""failure": 400"#,
        r#"0417.json:34:83: costs.parts.valve springs.failure is no more than the planned change
    write all that it costs when it lets go: the part, the work, and what it takes along
"#;
    a_cost_below_nothing:
        r#""hour": 85"# => r#""hour": -85"#,
        r#"0417.json:34:22: costs.hour cannot be -85
    write 0 or more
"#;
    one_set_on_the_shelf_twice:
        r#""serial": "set 15""# => r#""serial": "set 14""#,
        r#"0417.json:35:100: spares #2.serial: "set 14" is on the shelf twice
    give each set its own number
"#;
    a_field_written_twice:
        r#""bore": "4.155 in","# => r#""bore": "4.155 in",
  "bore": "4.125 in","#,
        r#"0417.json:10:3: "bore" is written twice, on lines 9 and 10
    keep one of them: which one counts, nobody can tell
"#;
    a_comma_too_many:
        r#""passes": "40 passes" }"# => r#""passes": "40 passes", }"#,
        r#"0417.json:28:58: there is a comma after the last entry
    take it out
"#;
    a_comma_missing:
        r#""name": "0417", "# => r#""name": "0417" "#,
        r#"0417.json:3:29: a comma is missing before this
"#;
    a_comment:
        r#""crank":"# => r#"// the crank
  "crank":"#,
        r#"0417.json:10:3: comments are not allowed in JSON
    put the text into "notes"
"#;
    single_quotes:
        r#""name": "0417""# => r#""name": '0417'"#,
        r#"0417.json:3:23: text stands in single quotes
    use double quotes: "4.155 in"
"#;
    a_word_without_quotes:
        r#""bore": "4.155 in""# => r#""bore": in"#,
        r#"0417.json:9:47: this is neither text, number, true, false nor null
    put text in double quotes: "4.155 in"
"#;
    a_number_that_is_none:
        r#""cylinders": 8"# => r#""cylinders": 08"#,
        r#"0417.json:3:45: a comma is missing before this
"#;
    text_not_closed:
        r#""by": "R", "until": "next-freshen" }]"# => r#""by": "R", "until": "next-freshen }]"#,
        r#"0417.json:26:101: this text is not closed on its line
    text ends at a double quote; a new line in it is \n
"#;
    something_after_the_end:
        r#""serial": "set 15" }]
}"# => r#""serial": "set 15" }]
}
{}"#,
        r#"0417.json:37:1: something follows after the end of the sheet
"#;
    csv_outside_the_folder:
        r#""at": { "1I": "18 thou", "1E": "20 thou" }"# => r#""csv": "../lash.csv""#,
        r#"0417.json:23:27: readings.lash-cold.csv: "../lash.csv" is not in the sheet's folder
    put the file beside the sheet
"#;
    csv_that_is_not_there:
        r#""at": { "1I": "18 thou", "1E": "20 thou" }"# => r#""csv": "lash.csv""#,
        r#"0417.json:23:27: readings.lash-cold.csv: "lash.csv" cannot be read: there is no such file beside the sheet
    name a file of readings beside the sheet
"#;
}
