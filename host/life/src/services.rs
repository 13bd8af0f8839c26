//! What the packs' services say of a log.

use crate::entry::{Entry, What};
use thou_contract::logged::Reach;
use thou_contract::{Manifest, ServiceInfo};

/// Services by their rules, whether or not they have a life to give for this engine: what was fitted was fitted in any use.
#[derive(Debug, Clone, Default)]
pub struct LogServices<'a>(Vec<(String, &'a ServiceInfo)>);

impl<'a> LogServices<'a> {
    /// These, and then every service of these packs. Where several say that a reading tells of their part, the first one's
    /// part is named.
    pub fn new(first: impl IntoIterator<Item = (String, &'a ServiceInfo)>, packs: &[&'a Manifest]) -> Self {
        let of = |pack: &&'a Manifest| {
            let (id, rules) = (&pack.id, &pack.rules);
            rules.iter().filter_map(move |r| Some((format!("{id}/{}", r.id), r.service.as_ref()?)))
        };
        Self(first.into_iter().chain(packs.iter().flat_map(of)).collect())
    }

    /// Whether an entry puts something in, of which what this reading said before says nothing.
    #[must_use]
    pub fn begins_anew(&self, entry: &Entry, reading: &str) -> bool {
        let part = match &entry.what {
            What::Freshened => return true,
            What::Fitted { part, .. } => Some(part),
            What::Did { service, .. } => {
                let did = self.0.iter().find(|(rule, _)| rule == service);
                did.filter(|(_, s)| s.renews()).map(|(_, s)| &s.part)
            }
            _ => None,
        };
        let says = |s: &ServiceInfo| s.read_afresh.iter().any(|r| r == reading);
        part.is_some_and(|part| self.0.iter().any(|(_, s)| s.part == *part && says(s)))
    }

    /// The part that a service ends the life of; none where it only looks at it, or no pack has it.
    #[must_use]
    pub fn renewed_by(&self, rule: &str) -> Option<&'a str> {
        let did = self.0.iter().find(|(known, _)| known == rule);
        did.filter(|(_, s)| s.renews()).map(|(_, s)| s.part.as_str())
    }

    /// What a failure of a part reaches, by how it failed in somebody's words: what is said of any failure, and of this one;
    /// where the words tell of none that is known, of each, with its name.
    #[must_use]
    pub fn reach(&self, part: &str, how: &str) -> Vec<String> {
        let mut all: Vec<&Reach> = Vec::new();
        for reach in self.0.iter().filter(|(_, s)| s.part == part).flat_map(|(_, s)| &s.reaches) {
            if !all.contains(&reach) {
                all.push(reach);
            }
        }
        let told = all.iter().any(|r| r.told(how));
        let say = |r: &&Reach| match r.by.first() {
            Some(name) if !told => Some(format!("{}: {}", capital(name), r.look)),
            Some(_) if !r.told(how) => None,
            _ => Some(r.look.clone()),
        };
        all.iter().filter_map(say).collect()
    }

    /// The part whose end this reading tells.
    #[must_use]
    pub fn told(&self, reading: &str) -> Option<&'a str> {
        let tells = |s: &ServiceInfo| s.told_by.iter().any(|r| r == reading);
        self.0.iter().find(|(_, s)| tells(s)).map(|(_, s)| s.part.as_str())
    }
}

fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

#[cfg(test)]
pub(crate) mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::log::tests::line;
    use jiff::civil::date;

    /// A service of a part, as a pack would write it, with what it says of a log.
    pub(crate) fn service(part: &str, action: &str, says: &serde_json::Value) -> ServiceInfo {
        let mut service = serde_json::json!({ "part": part, "action": action, "since": "built", "opens": "pan",
            "hours": 1.0, "loses": "engine" });
        service.as_object_mut().unwrap().extend(says.as_object().unwrap().clone());
        serde_json::from_value(service).unwrap()
    }

    #[test]
    fn a_reading_begins_anew_with_the_part_that_its_service_names() {
        let says = serde_json::json!({ "read-afresh": ["seat-load"], "told-by": ["seat-load", "lash"] });
        let (change, look) = (service("coils", "replace", &says), service("coils", "measure", &serde_json::json!({})));
        let services = LogServices::new([("x/look".into(), &look), ("x/change".into(), &change)], &[]);
        let anew = |what: &str, reading: &str| services.begins_anew(&line(date(2026, 6, 1), what), reading);
        assert!(anew(r#""what":"fitted","part":"coils","serial":"9""#, "seat-load"));
        assert!(!anew(r#""what":"fitted","part":"valve springs","serial":"9""#, "seat-load"));
        assert!(!anew(r#""what":"fitted","part":"coils","serial":"9""#, "lash"));
        assert!(anew(r#""what":"did","service":"x/change""#, "seat-load"));
        // looked at, and by a pack that is not there
        assert!(!anew(r#""what":"did","service":"x/look""#, "seat-load"));
        assert!(!anew(r#""what":"did","service":"y/change""#, "seat-load"));
        assert!(anew(r#""what":"freshened""#, "power"));
        assert!(!anew(r#""what":"ran","passes":1"#, "seat-load"));
        assert_eq!([services.told("lash"), services.told("power")], [Some("coils"), None]);
        assert_eq!([services.renewed_by("x/change"), services.renewed_by("x/look")], [Some("coils"), None]);
    }

    #[test]
    fn what_a_failure_reaches_is_said_by_how_it_failed() {
        let says = serde_json::json!({ "reaches": [{ "look": "The filter." }, { "by": ["broke"], "look": "The valve." },
            { "by": ["soft", "weak"], "look": "The seat." }] });
        let change = service("coils", "replace", &says);
        // the same pack twice says it once
        let services = LogServices::new([("x/change".into(), &change), ("x/change".into(), &change)], &[]);
        assert_eq!(services.reach("coils", "inner BROKEN, 5E"), ["The filter.", "The valve."]);
        assert_eq!(services.reach("coils", "one weak"), ["The filter.", "The seat."]);
        let all = ["The filter.", "Broke: The valve.", "Soft: The seat."];
        assert_eq!(services.reach("coils", "gone"), all);
        assert!(services.reach("rockers", "broke").is_empty());
    }
}
