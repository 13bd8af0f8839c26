//! What the packs' services say of a log.

use crate::entry::{Entry, What};
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

    /// The part whose end this reading tells.
    #[must_use]
    pub fn told(&self, reading: &str) -> Option<&'a str> {
        let tells = |s: &ServiceInfo| s.told_by.iter().any(|r| r == reading);
        self.0.iter().find(|(_, s)| tells(s)).map(|(_, s)| s.part.as_str())
    }
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
    }
}
