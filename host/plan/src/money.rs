//! What was logged of costs and hours, by season, engine and customer; what was paid, and what is still owed.

use super::kept::hour_on;
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_life::entry::{Entry, What};

/// One engine as its account is drawn up from: what its sheet says, and what the book has of it.
#[derive(Debug, Clone, Copy)]
pub struct Billed<'a> {
    /// Its name in the book.
    pub engine: &'a str,
    /// Whose it is by its sheet; empty where that does not say.
    pub customer: &'a str,
    /// What the sheet says an hour costs.
    pub hour: Option<f64>,
    /// What the money is called.
    pub money: &'a str,
    /// The shop's entries and its own, each by day.
    pub entries: [&'a [Entry]; 2],
}

/// One season of one engine for one customer. Money is the shop's own.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Account {
    /// The year: what was done by 31 December is of that season.
    pub season: i16,
    /// The engine.
    pub engine: String,
    /// Whose it was on the day; empty where nobody said.
    pub customer: String,
    /// What the money is called.
    pub money: String,
    /// What was bought: the costs as logged, without hours.
    pub cost: f64,
    /// Hours of work.
    pub hours: f64,
    /// What the hours come to, each at what one cost on its day.
    pub work: f64,
    /// Hours of days on which nobody had said what one costs: nothing of them is in the sum.
    pub unpriced: f64,
    /// Services that were done and logged with neither cost nor hours.
    pub silent: u32,
    /// What came in.
    pub paid: f64,
    /// What may be spent on the engine in that season, and what is left of it over all its customers; with the last of them.
    pub budget: Option<[f64; 2]>,
}

impl Account {
    /// All that was spent: what was bought, and the hours that have a price.
    #[must_use]
    pub fn spent(&self) -> f64 {
        self.cost + self.work
    }

    /// What is still owed; under nothing, what was paid ahead.
    #[must_use]
    pub fn owed(&self) -> f64 {
        self.spent() - self.paid
    }
}

/// The accounts of an engine, by season and customer, up to a day.
#[must_use]
pub fn accounts(of: &Billed<'_>, as_of: Option<Date>) -> Vec<Account> {
    let [_, own] = of.entries;
    let by_then = |e: &&Entry| as_of.is_none_or(|day| e.day <= day);
    let mut all: BTreeMap<(i16, String), Account> = BTreeMap::new();
    for entry in own.iter().filter(by_then) {
        let (cost, hours, paid) = match entry.what {
            What::Did { cost, hours, .. } | What::Charged { cost, hours } => (cost, hours, 0.0),
            What::Paid { amount } => (None, None, amount),
            _ => continue,
        };
        let customer = customer_on(of, entry.day);
        let season = entry.day.year();
        let account = all.entry((season, customer.clone())).or_insert_with(|| Account {
            season,
            engine: of.engine.to_owned(),
            customer,
            money: of.money.to_owned(),
            ..Account::default()
        });
        account.cost += cost.unwrap_or(0.0);
        account.paid += paid;
        let hours = hours.unwrap_or(0.0);
        account.hours += hours;
        match hour_on(of.hour, of.entries, entry.day) {
            Some(hour) => account.work += hours * hour,
            None => account.unpriced += hours,
        }
        if cost.is_none() && hours <= 0.0 && matches!(entry.what, What::Did { .. }) {
            account.silent += 1;
        }
    }
    let mut budgets: BTreeMap<i16, (f64, Date)> = BTreeMap::new();
    for entry in own.iter().filter(by_then) {
        if let What::Budgeted { season, amount } = entry.what {
            budgets.insert(season, (amount, entry.day));
        }
    }
    for (season, (amount, day)) in budgets {
        let spent: f64 = all.values().filter(|a| a.season == season).map(Account::spent).sum();
        let (engine, money) = (of.engine.to_owned(), of.money.to_owned());
        if !all.values().any(|a| a.season == season) {
            let customer = customer_on(of, day);
            let account = Account { season, engine, money, customer: customer.clone(), ..Account::default() };
            all.insert((season, customer), account);
        }
        if let Some(last) = all.values_mut().rfind(|a| a.season == season) {
            last.budget = Some([amount, amount - spent]);
        }
    }
    all.into_values().collect()
}

/// Whose an engine was on a day.
fn customer_on(of: &Billed<'_>, day: Date) -> String {
    let [_, own] = of.entries;
    let named = own.iter().rev().filter(|e| e.day <= day).find_map(|e| match &e.what {
        What::Customer { name } => Some(name.as_str()),
        _ => None,
    });
    named.unwrap_or(of.customer).to_owned()
}

/// What is still owed by customer and money, over all that was given: who owes most first.
#[must_use]
pub fn owed(accounts: &[Account]) -> Vec<(String, String, f64)> {
    let mut all: BTreeMap<(&str, &str), f64> = BTreeMap::new();
    for account in accounts {
        *all.entry((&account.customer, &account.money)).or_default() += account.owed();
    }
    let mut out: Vec<(String, String, f64)> =
        all.into_iter().map(|((who, money), sum)| (who.to_owned(), money.to_owned(), sum)).collect();
    out.sort_by(|a, b| b.2.total_cmp(&a.2).then_with(|| a.0.cmp(&b.0)));
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;

    fn entries(lines: &[(&str, &str)]) -> Vec<Entry> {
        let of = |(day, json): &(&str, &str)| {
            serde_json::from_str(&format!(r#"{{"id":"{day}","engine":"0417","day":"{day}",{json}}}"#)).unwrap()
        };
        lines.iter().map(of).collect()
    }

    /// 2026: 80.5 + 60 bought; 0.5 h at 85 and 1.5 h at 95 are 42.5 + 142.5; 200 paid: 325.5 - 200 = 125.5.
    /// 2027, another's by then: 2 h at 95 are 190.
    #[test]
    fn hours_are_priced_at_their_day_and_a_season_is_its_customers() {
        let own = entries(&[
            ("2026-03-01", r#""what":"budgeted","season":2026,"amount":1000"#),
            ("2026-05-02", r#""what":"did","service":"freshen/oil","cost":80.5,"hours":0.5"#),
            ("2026-05-03", r#""what":"did","service":"freshen/oil-filter""#),
            ("2026-06-02", r#""what":"charged","cost":60,"hours":1.5"#),
            ("2026-07-01", r#""what":"paid","amount":200"#),
            ("2027-01-02", r#""what":"customer","name":"T. Nine""#),
            ("2027-05-02", r#""what":"did","service":"freshen/oil","hours":2"#),
        ]);
        let shop = entries(&[("2026-06-01", r#""what":"priced","hour":95"#)]);
        let of =
            Billed { engine: "0417", customer: "R. Mile", hour: Some(85.0), money: "dollars", entries: [&shop, &own] };
        let all = accounts(&of, None);
        let told: Vec<_> =
            all.iter().map(|a| (a.season, a.customer.as_str(), a.cost, a.hours, a.work, a.owed())).collect();
        assert_eq!(told, [(2026, "R. Mile", 140.5, 2.0, 185.0, 125.5), (2027, "T. Nine", 0.0, 2.0, 190.0, 190.0)]);
        assert_eq!((all[0].budget, all[0].silent, all[1].budget), (Some([1000.0, 674.5]), 1, None));
        let owed: Vec<(String, f64)> = owed(&all).into_iter().map(|(who, _, sum)| (who, sum)).collect();
        assert_eq!(owed, [("T. Nine".to_owned(), 190.0), ("R. Mile".to_owned(), 125.5)]);
        // as of the day before the payment nothing had come in
        let then = accounts(&of, Some("2026-06-30".parse().unwrap()));
        assert_eq!((then.len(), then[0].owed()), (1, 325.5));
        // hours that nobody has priced are told and not in the sum
        let none = accounts(&Billed { hour: None, entries: [&[], &own], ..of }, None);
        assert_eq!((none[0].unpriced, none[0].work, none[0].spent()), (2.0, 0.0, 140.5));
    }
}
