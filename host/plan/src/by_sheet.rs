//! What the sheet itself says of a service: when it was done last, alone or with another that settles it, and what its meter
//! has run since.

use super::brought::brought;
use jiff::civil::Date;
use thou_sheet::Sheet;
use thou_sheet::model::Serviced;
use thou_verdict::ServiceItem;

/// The services that settle this one when they are done.
pub(super) fn settled_by<'a>(services: &'a [ServiceItem], service: &ServiceItem) -> Vec<&'a str> {
    // a pack names its own rules without itself
    let names = |by: &ServiceItem, other: &str| {
        let own = by.rule.split_once('/').zip(service.rule.split_once('/'));
        other == service.rule || own.is_some_and(|((a, _), (b, rule))| a == b && other == rule)
    };
    let settles = |s: &&ServiceItem| s.rule != service.rule && s.service.resets.iter().any(|other| names(s, other));
    services.iter().filter(settles).map(|s| s.rule.as_str()).collect()
}

/// A service by its sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct BySheet<'a> {
    service: &'a ServiceItem,
    done: Option<&'a Serviced>,
    /// What the part brought into the build, SI or a count.
    pub(super) brought: f64,
}

impl<'a> BySheet<'a> {
    pub(super) fn of(sheet: &'a Sheet, service: &'a ServiceItem, settled_by: &[&str]) -> Self {
        let rows = sheet.serviced.iter().filter(|s| s.rule == service.rule || settled_by.contains(&s.rule.as_str()));
        let at = |row: &Serviced| row.at.get(&service.meter).copied();
        let done = rows.max_by(|a, b| match (at(a), at(b)) {
            (Some(a), Some(b)) => a.total_cmp(&b),
            _ => a.date.cmp(&b.date),
        });
        Self { service, done, brought: brought(sheet, service) }
    }

    /// Whether the sheet says that it was done since the build.
    pub(super) fn done(&self) -> bool {
        self.done.is_some()
    }

    /// Used, where the meter has run so much since the build, with what a used part brought along.
    pub(super) fn used(&self, run: f64) -> f64 {
        match self.done {
            Some(done) => (run - done.at.get(&self.service.meter).copied().unwrap_or(0.0)).max(0.0),
            None => run + self.brought,
        }
    }

    /// The day that it was done, else that of the build.
    pub(super) fn day(&self, sheet: &Sheet) -> Option<Date> {
        let built = || sheet.stated("engine.date").and_then(|(v, _)| v.as_str()?.parse().ok());
        self.done.and_then(|done| done.date).or_else(built)
    }

    /// What tells one turn of the service from the next: the meter at the last time, else its day, else the build.
    pub(super) fn since(&self) -> String {
        let Some(done) = self.done else { return "build".to_owned() };
        let at = done.at.get_key_value(&self.service.meter).or_else(|| done.at.first_key_value());
        let day = || done.date.map_or_else(|| "done".to_owned(), |d| d.to_string());
        at.map_or_else(day, |(meter, run)| format!("{meter}-{}", run.round()))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use std::collections::BTreeMap;
    use thou_sandbox::builtin;

    /// A service by this name, of the words of the house's oil change.
    fn service(rule: &str, resets: &[&str]) -> ServiceItem {
        let packs = builtin();
        let oil = packs.iter().find_map(|p| p.manifest.rules.iter().find(|r| r.id == "oil")).unwrap();
        let mut service = oil.service.clone().unwrap();
        service.resets = resets.iter().map(|r| (*r).to_owned()).collect();
        ServiceItem {
            rule: rule.to_owned(),
            title: oil.title.clone(),
            place: None,
            meter: "passes".to_owned(),
            low: 1.0,
            nominal: 2.0,
            high: 3.0,
            words: String::new(),
            args: BTreeMap::new(),
            why: String::new(),
            service,
            wears: None,
            basis: oil.basis,
            source: String::new(),
        }
    }

    #[test]
    fn a_service_is_settled_by_its_own_packs_rules_by_their_name_and_by_others_by_theirs() {
        let services = [
            service("shop/oil", &["filter"]),
            service("other/oil", &["filter"]),
            service("other/rebuild", &["shop/filter"]),
            service("shop/filter", &["filter"]),
        ];
        assert_eq!(settled_by(&services, &services[3]), ["shop/oil", "other/rebuild"]);
        assert!(settled_by(&services, &services[0]).is_empty());
    }
}
