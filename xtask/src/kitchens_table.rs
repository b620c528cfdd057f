//! The table of what differs from kitchen to kitchen, written into its page from the data of the common audience.

use bake::kitchens::variable::{Unit, Variable};
use std::fmt::Write;
use std::path::Path;
use toml::Value;

/// Where the page stands.
pub const PAGE: &str = "docs/kitchens.md";
/// The data.
const DATA: &str = "crates/bake/data/audiences/common.toml";
/// The lines that the table stands between.
const BETWEEN: [&str; 2] = [
    "(`cargo run -p xtask -- kitchens-table` writes it.)",
    "## How a reader follows",
];

/// Writes it.
///
/// # Errors
/// When page or data cannot be read, or the page cannot be written.
pub fn write(root: &Path) -> Result<String, String> {
    let page = current(root)?;
    std::fs::write(root.join(PAGE), page).map_err(|fault| format!("{PAGE}: {fault}"))?;
    Ok(format!("the table in {PAGE} is written"))
}

/// The page with its table as the data have it now.
///
/// # Errors
/// When page or data cannot be read, or the page has no place for the table.
pub fn current(root: &Path) -> Result<String, String> {
    let read = |name: &str| {
        std::fs::read_to_string(root.join(name)).map_err(|fault| format!("{name}: {fault}"))
    };
    let page = read(PAGE)?;
    let [first, last] = BETWEEN;
    let begins = page.find(first).ok_or("no place for the table")? + first.len();
    let ends = page.find(last).ok_or("no end of the table")?;
    let table = table(&read(DATA)?)?;
    Ok(format!("{}\n\n{table}\n{}", &page[..begins], &page[ends..]))
}

/// The table of a file of an audience.
fn table(data: &str) -> Result<String, String> {
    let data: toml::Table = toml::from_str(data).map_err(|fault| format!("{DATA}: {fault}"))?;
    let variables = data.get("variable").and_then(Value::as_array);
    let variables = variables.ok_or("no variables")?;
    let mut out =
        "| name | what it is | in | in home kitchens | where from |\n|---|---|---|---|---|\n"
            .to_owned();
    for variable in Variable::ALL {
        let key = variable.key();
        let named = |one: &&Value| word(one, "name") == Some(key);
        let found = variables.iter().find(named);
        let found = found.ok_or_else(|| format!("{DATA}: {key} is not in it"))?;
        let is = found
            .get("is")
            .ok_or_else(|| format!("{key}: no figures"))?;
        let mut spread = told(is);
        if let Some(with) = found.get("goes-with").and_then(Value::as_table) {
            for (other, how) in with {
                let _ = write!(spread, "; goes with `{other}`, {}", text(how));
            }
        }
        let _ = writeln!(
            out,
            "| `{key}` | {} | {} | {spread} | {} |",
            variable.words(),
            unit(*variable),
            word(found, "had").unwrap_or("")
        );
    }
    Ok(out)
}

fn word<'a>(of: &'a Value, key: &str) -> Option<&'a str> {
    of.get(key).and_then(Value::as_str)
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or("")
}

fn unit(variable: Variable) -> String {
    match variable.unit() {
        Unit::YesNo => "yes or no".to_owned(),
        Unit::Words => variable.choices().join(", "),
        Unit::Celsius => "°C".to_owned(),
        Unit::Kelvin => "°C more or less".to_owned(),
        Unit::Gram => "g".to_owned(),
        Unit::Metre => "m".to_owned(),
        Unit::Minute => "min".to_owned(),
        Unit::Share => "%".to_owned(),
    }
}

/// A distribution in words.
fn told(is: &Value) -> String {
    let at = |key: &str| word(is, key);
    let ends = || at("from").zip(at("to"));
    if let Some(kinds) = is.get("one-of").and_then(Value::as_array) {
        let each = kinds.iter().map(|kind| {
            let share = word(kind, "share").unwrap_or("");
            format!("{share}: {}", told(kind))
        });
        return each.collect::<Vec<_>>().join("; ");
    }
    match (at("word"), at("yes"), at("always"), at("mean")) {
        (Some(word), ..) => word.to_owned(),
        (_, Some(yes), ..) => format!("yes in {yes}"),
        (_, _, Some(always), _) => format!("always {always}"),
        (_, _, _, Some(mean)) => format!("a wait, {mean} in the mean"),
        _ => match (at("middle"), at("alpha"), ends()) {
            (Some(middle), _, Some((from, to))) => format!(
                "a bell around {middle}, {} wide, from {from} to {to}",
                at("deviation").unwrap_or("")
            ),
            (_, Some(alpha), Some((from, to))) => format!(
                "beta of {alpha} and {} from {from} to {to}",
                at("beta").unwrap_or("")
            ),
            (_, _, Some((from, to))) => format!("from {from} to {to}, as often"),
            _ => String::new(),
        },
    }
}
