//! An entry as it stands in a file.

use serde::Deserialize;

/// One field. What is as usual is left out; README.md in `data/` says what each line means.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Entry {
    pub path: String,
    pub words: Option<String>,
    pub kind: Option<String>,
    pub of: Option<String>,
    pub all_of: Option<String>,
    pub choices: Option<Choices>,
    pub is: Option<String>,
    #[serde(default)]
    pub required: bool,
    #[serde(default)]
    pub examples: Vec<toml::Value>,
    pub band: Option<[String; 2]>,
    pub prints: Option<Prints>,
    #[serde(default)]
    pub starter: bool,
    #[serde(default)]
    pub starter_in: Vec<String>,
    pub step: Option<String>,
    pub only: Option<String>,
    pub disturbs: Option<String>,
    #[serde(default)]
    pub cuts_metal: bool,
    pub read_by: Option<String>,
    pub recorded: Option<String>,
    #[serde(default)]
    pub judged_in: Vec<String>,
    #[serde(default)]
    pub notes: bool,
    pub each: Option<String>,
    pub points: Option<String>,
    pub gauge: Option<String>,
    pub grows_with: Option<String>,
    #[serde(default)]
    pub stale_after: Vec<String>,
    #[serde(default)]
    pub when_read: bool,
    #[serde(default)]
    pub moves_by: toml::Table,
    #[serde(default)]
    pub agrees_with: Vec<Agreement>,
    #[serde(default)]
    pub usual: Vec<Usual>,
}

/// What the figure usually is, beside another one or by itself.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Usual {
    pub of: Option<String>,
    #[serde(default = "once")]
    pub power: i32,
    #[serde(default)]
    pub from: String,
    #[serde(default)]
    pub until: String,
    #[serde(default)]
    pub sizes: Vec<String>,
    #[serde(default)]
    pub within: String,
    #[serde(rename = "where")]
    pub only: Option<String>,
}

fn once() -> i32 {
    1
}

/// What the sheet states of the same thing that is read.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Agreement {
    pub field: String,
    pub less: Option<String>,
    pub within: String,
}

/// The words of a choice, with what they mean or without.
#[derive(Debug, Clone, Deserialize)]
#[serde(untagged)]
pub enum Choices {
    Bare(Vec<String>),
    Explained(toml::Table),
}

impl Choices {
    /// Each word with what it means.
    pub fn words(&self) -> Vec<(String, String)> {
        match self {
            Self::Bare(words) => words.iter().map(|w| (w.clone(), String::new())).collect(),
            Self::Explained(table) => table
                .iter()
                .map(|(word, meaning)| (word.clone(), meaning.as_str().unwrap_or_default().to_owned()))
                .collect(),
        }
    }
}

/// How a field prints: unit and decimals.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Prints {
    pub inch: (String, usize),
    pub metric: (String, usize),
    #[serde(default)]
    pub halves: bool,
}

/// What a file of entries begins with.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Head {
    pub name: String,
    pub words: String,
    pub step: Option<String>,
    #[serde(default)]
    pub part: bool,
    #[serde(default)]
    pub work: bool,
    #[serde(default)]
    pub required: bool,
    #[serde(default)]
    pub notes: bool,
    #[serde(default)]
    pub starter: bool,
    pub read_by: Option<String>,
    pub list_of: Option<String>,
    pub by_name: Option<String>,
}

/// A file of entries: of a section, of a list's rows, of what several sections have, or of readings.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    pub section: Option<Head>,
    pub rows: Option<Head>,
    pub group: Option<Head>,
    #[serde(default)]
    pub field: Vec<Entry>,
}

/// The sheet as a whole.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetFile {
    pub sheet: SheetHead,
    pub field: Vec<Entry>,
}

/// Its words, and what it is made of.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetHead {
    pub title: String,
    pub words: String,
    pub sections: Vec<String>,
    pub readings: Vec<String>,
    pub rows: Vec<String>,
}

/// The kinds of gauge.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gauges {
    pub master: String,
    pub gauge: Vec<Gauge>,
}

/// One kind of gauge.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Gauge {
    pub name: String,
    pub words: String,
    pub shows: Vec<String>,
    pub step: String,
    pub good_for: String,
    #[serde(default)]
    pub in_percent: bool,
    #[serde(default)]
    pub compares: bool,
}

/// The kinds of quantity.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kinds {
    pub kind: Vec<KindWords>,
}

/// What the schema says of one kind.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KindWords {
    pub name: String,
    pub words: String,
    pub examples: Vec<toml::Value>,
}

/// Words that several fields choose from.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChoiceLists {
    pub choice: Vec<ChoiceList>,
}

/// One list of them.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChoiceList {
    pub name: String,
    pub words: String,
    pub choices: Choices,
}
