//! The shop's money: costs and hours as they were logged, by season, engine and customer; what was paid and is still owed.

use super::bench::wrap;
use super::words;
use jiff::civil::Date;
use serde_json::{Value, json};
use std::fmt::Write as _;
use thou_plan::money::{Account, owed};
use thou_text::thousands;

/// An amount to the cent, with thousands apart; whole ones without cents.
fn amount(sum: f64) -> String {
    let cents = (sum.abs() * 100.0).round();
    let (whole, rest) = ((cents / 100.0).floor(), cents % 100.0);
    let mut out = thousands(&format!("{whole}"));
    if rest > 0.0 {
        let _ = write!(out, ".{rest:02.0}");
    }
    if sum < 0.0 && cents > 0.0 { format!("-{out}") } else { out }
}

fn with_money(sum: f64, money: &str) -> String {
    format!("{} {money}", amount(sum)).trim_end().to_owned()
}

fn of(customer: &str) -> &str {
    if customer.is_empty() { "nobody named" } else { customer }
}

/// The page.
#[must_use]
pub fn text(accounts: &[Account], day: Option<Date>) -> String {
    let day = day.map(|d| format!("   as of {d}")).unwrap_or_default();
    let mut out = wrap(&format!("MONEY   as it was logged, by season, engine and customer{day}"), "", "  ");
    if accounts.is_empty() {
        out.push_str(&wrap("Nothing was logged with a cost, hours or a payment.", "", "  "));
    }
    let mut season = None;
    for account in accounts {
        if season != Some(account.season) {
            season = Some(account.season);
            let _ = writeln!(out, "\nSEASON OF {}", account.season);
        }
        out.push_str(&wrap(&line(account), "  ", "    "));
    }
    let debts = owed(accounts);
    if !debts.is_empty() {
        out.push_str("\nSTILL OWED\n");
    }
    for (customer, money, sum) in &debts {
        let words = match sum {
            sum if sum.abs() < 0.005 => "nothing of what was logged".to_owned(),
            sum if *sum < 0.0 => format!("nothing; {} paid ahead", with_money(-sum, money)),
            sum => with_money(*sum, money),
        };
        out.push_str(&wrap(&format!("{}: {words}", of(customer)), "  ", "    "));
    }
    gaps(accounts, &mut out);
    let _ = write!(out, "\n{}", wrap("Sums of what the log has; no tax and no invoice.", "", ""));
    out.push_str(&words::foot());
    out
}

fn line(account: &Account) -> String {
    let mut parts = vec![format!("bought {}", with_money(account.cost, &account.money))];
    let priced = account.hours - account.unpriced;
    if account.hours > 0.0 {
        let worth =
            if priced > 0.0 { format!(", {}", with_money(account.work, &account.money)) } else { String::new() };
        let unpriced = match account.unpriced {
            n if n > 0.0 && priced > 0.0 => format!(", {n} h of it without a price"),
            n if n > 0.0 => ", without a price".to_owned(),
            _ => String::new(),
        };
        parts.push(format!("{} h of work{worth}{unpriced}", account.hours));
    }
    parts.push(format!("paid {}", with_money(account.paid, &account.money)));
    if let Some([budget, left]) = account.budget {
        let word = if left < 0.0 { "over it by" } else { "left of it" };
        parts.push(format!(
            "budget {}, {word} {}",
            with_money(budget, &account.money),
            with_money(left.abs(), &account.money)
        ));
    }
    format!("{}, {}: {}.", account.engine, of(&account.customer), parts.join("; "))
}

/// What the sums do not have.
fn gaps(accounts: &[Account], out: &mut String) {
    let silent: u32 = accounts.iter().map(|a| a.silent).sum();
    let unpriced: f64 = accounts.iter().map(|a| a.unpriced).sum();
    let mut words = Vec::new();
    match silent {
        0 => {}
        1 => words.push("1 service was done and logged with neither cost nor hours".to_owned()),
        n => words.push(format!("{n} services were done and logged with neither cost nor hours")),
    }
    if unpriced > 0.0 {
        words.push(format!(
            "{unpriced} h of work of days on which nobody had said what an hour costs (thou book cost shop --hour)"
        ));
    }
    if !words.is_empty() {
        let _ = write!(out, "\n{}", wrap(&format!("Not in the sums: {}.", words.join("; ")), "", "  "));
    }
}

/// The same for programs.
#[must_use]
pub fn json(accounts: &[Account], day: Option<Date>) -> Value {
    let rows: Vec<Value> = accounts
        .iter()
        .map(|a| {
            json!({ "season": a.season, "engine": a.engine, "customer": a.customer, "money": a.money, "bought": a.cost,
                    "hours": a.hours, "work": a.work, "hours-without-a-price": a.unpriced, "spent": a.spent(),
                    "paid": a.paid, "owed": a.owed(), "budget": a.budget.map(|b| b[0]), "budget-left": a.budget.map(|b| b[1]), "services-without-figures": a.silent })
        })
        .collect();
    let debts: Vec<Value> = owed(accounts)
        .into_iter()
        .map(|(customer, money, sum)| json!({ "customer": customer, "money": money, "owed": sum }))
        .collect();
    json!({ "format": "thou-shop-1", "page": "money", "thou": env!("CARGO_PKG_VERSION"),
            "as-of": day.map(|d| d.to_string()), "accounts": rows, "owed": debts, "defers": words::DEFERS })
}

/// The same as rows for a table.
///
/// # Errors
/// None in practice: the rows are written to memory. The error is that of the `csv` crate.
pub fn rows(accounts: &[Account]) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record([
        "season",
        "engine",
        "customer",
        "money",
        "bought",
        "hours",
        "work",
        "hours-without-a-price",
        "spent",
        "paid",
        "owed",
        "budget",
        "budget-left",
        "services-without-figures",
    ])?;
    for a in accounts {
        let budget = |which: usize| a.budget.and_then(|b| b.get(which).map(f64::to_string)).unwrap_or_default();
        let cells = [
            a.season.to_string(),
            a.engine.clone(),
            a.customer.clone(),
            a.money.clone(),
            a.cost.to_string(),
            a.hours.to_string(),
            a.work.to_string(),
            a.unpriced.to_string(),
            a.spent().to_string(),
            a.paid.to_string(),
            a.owed().to_string(),
            budget(0),
            budget(1),
            a.silent.to_string(),
        ];
        writer.write_record(cells.iter().map(|cell| thou_text::safe_cell(cell)))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

#[cfg(test)]
mod tests {
    use super::amount;

    #[test]
    fn amounts_have_their_thousands_and_their_cents() {
        let told: Vec<String> = [0.0, 85.0, 1_240.5, 1_234_567.0, -12.346, -0.001, 999.995].map(amount).to_vec();
        assert_eq!(told, ["0", "85", "1,240.50", "1,234,567", "-12.35", "0", "1,000"]);
    }
}
