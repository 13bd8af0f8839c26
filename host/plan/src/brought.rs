//! What a part had run when it went in: its age goes where it goes.

use thou_contract::{Kind, ServiceInfo};
use thou_sheet::Sheet;
use thou_verdict::ServiceItem;

/// The use that a service's part came with, SI or a count: the most of its sections'. Nothing of a new part, of one that
/// was reconditioned where that is the service, and of one that was crack-tested where the service only looks.
pub(super) fn brought(sheet: &Sheet, service: &ServiceItem) -> f64 {
    let sections = service.service.held_in.as_deref().unwrap_or_default();
    sections.iter().map(|section| of(sheet, section, service)).fold(0.0, f64::max)
}

/// That a pack does not say what holds its part, where the sheet has used parts on this meter.
pub(super) fn unsaid(sheet: &Sheet, service: &ServiceItem) -> Option<String> {
    let used = |section: &&str| sheet.stated(&format!("{section}.used.{}", service.meter)).is_some();
    let matters = service.service.held_in.is_none() && ServiceInfo::SECTIONS.iter().any(used);
    matters.then(|| {
        let part = &service.service.part;
        format!(
            "its pack does not say which section of the sheet holds the {part}: no use before this build is counted in"
        )
    })
}

fn of(sheet: &Sheet, section: &str, service: &ServiceItem) -> f64 {
    let looks = !service.service.renews();
    let begins_anew = match sheet.state(section) {
        "new" => true,
        "reconditioned" => service.service.action == "recondition",
        _ => false,
    };
    if begins_anew || looks && sheet.stated(&format!("{section}.crack-tested")).is_some() {
        return 0.0;
    }
    let Some((value, _)) = sheet.stated(&format!("{section}.used.{}", service.meter)) else { return 0.0 };
    let kind = match service.meter.as_str() {
        "miles" => "distance",
        "hours" => "time",
        "passes" => "passes",
        _ => "count",
    };
    let parse = |text: &str| Kind::by_id(kind)?.parse(text).ok();
    value.as_f64().or_else(|| parse(value.as_str()?)).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::{brought, unsaid};
    use serde_json::{Value, json};
    use std::collections::BTreeMap;
    use std::path::Path;
    use thou_sandbox::builtin;
    use thou_sheet::Sheet;
    use thou_verdict::ServiceItem;

    /// A service of the house's packs, on passes.
    fn service(rule: &str) -> ServiceItem {
        let packs = builtin();
        let found = packs.iter().find_map(|p| p.manifest.rules.iter().find(|r| r.id == rule)).unwrap();
        ServiceItem {
            rule: format!("freshen/{rule}"),
            title: found.title.clone(),
            place: None,
            meter: "passes".to_owned(),
            low: 1.0,
            nominal: 2.0,
            high: 3.0,
            words: String::new(),
            args: BTreeMap::new(),
            why: String::new(),
            service: found.service.clone().unwrap(),
            wears: found.wears(0),
            basis: found.basis,
            source: String::new(),
        }
    }

    fn with(section: &str, part: &Value) -> Sheet {
        let mut sheet = json!({ "format": "thou-build-1", "intent": { "use": "bracket" },
            "engine": { "name": "x", "cylinders": 8, "layout": "v" } });
        match section.split_once('.') {
            None => sheet[section] = part.clone(),
            Some((outer, inner)) => sheet[outer] = json!({ inner: part }),
        }
        Sheet::parse("x.json", &sheet.to_string(), Path::new(".")).map_err(|f| f.to_string()).unwrap()
    }

    #[test]
    fn a_part_brings_its_use_from_the_section_that_holds_it() {
        let used = json!({ "state": "reused", "used": { "passes": "150 passes" } });
        for (rule, section, brings) in [
            ("lifters", "valvetrain", 150.0),
            ("lifter-look", "valvetrain", 150.0),
            ("rockers", "valvetrain", 150.0),
            ("springs", "springs", 150.0),
            ("retainers", "springs", 150.0),
            ("rod-bolts", "fasteners.rod-bolts", 150.0),
            ("rod-bearings", "bearings", 150.0),
            ("pistons", "pins", 150.0),
            ("exhaust-valves", "valves", 150.0),
            ("crank", "crank", 150.0),
            ("rings", "rings", 150.0),
            // honed and cut anew at a freshen, whatever the casting ran
            ("bores", "block", 0.0),
            ("guides", "heads", 0.0),
            ("rings", "pistons", 0.0),
        ] {
            assert_eq!(brought(&with(section, &used), &service(rule)).to_bits(), f64::to_bits(brings), "{rule}");
        }
    }

    #[test]
    fn the_older_of_two_sections_counts() {
        let mut sheet = json!({ "format": "thou-build-1", "intent": { "use": "bracket" },
            "engine": { "name": "x", "cylinders": 8, "layout": "v" } });
        for (section, passes) in [("pistons", "40 passes"), ("pins", "90 passes")] {
            sheet[section] = json!({ "state": "reused", "used": { "passes": passes } });
        }
        let sheet = Sheet::parse("x.json", &sheet.to_string(), Path::new(".")).map_err(|f| f.to_string()).unwrap();
        assert_eq!(brought(&sheet, &service("pistons")).to_bits(), 90_f64.to_bits());
    }

    #[test]
    fn what_was_done_when_it_went_in_begins_anew() {
        let used = |state: &str| json!({ "state": state, "used": { "passes": "150 passes" } });
        let rebuilt = with("valvetrain", &used("reconditioned"));
        assert_eq!(brought(&rebuilt, &service("lifters")).to_bits(), 0_f64.to_bits());
        // rebuilt lifters do not make the rockers younger
        assert_eq!(brought(&rebuilt, &service("rockers")).to_bits(), 150_f64.to_bits());
        assert_eq!(brought(&with("valvetrain", &used("new")), &service("rockers")).to_bits(), 0_f64.to_bits());
        let mut crank = used("reused");
        crank["crack-tested"] = json!("2026-05-28");
        assert_eq!(brought(&with("crank", &crank), &service("crank")).to_bits(), 0_f64.to_bits());
    }

    #[test]
    fn a_pack_that_does_not_say_what_holds_its_part_is_told_of() {
        let used = with("springs", &json!({ "state": "reused", "used": { "passes": "150 passes" } }));
        let mut older = service("springs");
        older.service.held_in = None;
        assert_eq!(brought(&used, &older).to_bits(), 0_f64.to_bits());
        let told = unsaid(&used, &older).unwrap();
        assert!(told.contains("which section of the sheet holds the valve springs"), "{told}");
        // nothing to carry: on this meter, or at all
        assert_eq!(unsaid(&used, &ServiceItem { meter: "miles".to_owned(), ..older.clone() }), None);
        assert_eq!(unsaid(&with("springs", &json!({ "state": "new" })), &older), None);
        // said, and be it that nothing holds it
        older.service.held_in = Some(Vec::new());
        assert_eq!(unsaid(&used, &older), None);
    }
}
