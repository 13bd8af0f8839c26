//! The entries as the sheet nests them, with what several sections have written out at each.

use super::entry::{ChoiceLists, Entry, File, Gauges, Head, Kinds, SheetFile, SheetHead};
use std::collections::BTreeMap;

/// All that the files say.
pub struct Sheet {
    pub head: SheetHead,
    /// Fields of the sheet itself: before its sections, then after.
    pub own: Vec<Node>,
    pub sections: Vec<Section>,
    pub readings: Vec<Node>,
    pub rows: Vec<Section>,
    pub gauges: Gauges,
    pub kinds: Kinds,
    pub choices: ChoiceLists,
    /// What several sections have: its name, its words and its fields.
    pub groups: Vec<(String, String, Vec<Entry>)>,
}

/// A section, or what stands in each row of a list.
pub struct Section {
    pub head: Head,
    pub nodes: Vec<Node>,
}

/// A field with those below it.
#[derive(Clone)]
pub struct Node {
    /// Its whole path.
    pub path: String,
    pub entry: Entry,
    pub step: String,
    /// What several have, where it is one of those fields.
    pub shared: Option<String>,
    pub children: Vec<Node>,
}

/// What the remarks of every section are.
const NOTES: &str = "Anything else worth keeping.";
/// Why nobody reads them.
const FOR_PEOPLE: &str = "Remarks are for people.";

impl Node {
    /// The last part of its path.
    pub fn key(&self) -> &str {
        self.path.rsplit('.').next().unwrap_or(&self.path)
    }
    /// Its kind; `choice` where it has choices.
    pub fn kind(&self) -> &str {
        match (&self.entry.kind, &self.entry.choices) {
            (Some(kind), _) => kind,
            (None, Some(_)) => "choice",
            (None, None) => "section",
        }
    }
    /// One line of what it is.
    pub fn words(&self) -> &str {
        self.entry.words.as_deref().unwrap_or_default()
    }
    /// It and all below it, in order.
    pub fn walk<'a>(&'a self, out: &mut Vec<&'a Node>) {
        out.push(self);
        for child in &self.children {
            child.walk(out);
        }
    }
}

impl Sheet {
    /// Every field that the sheet has once, in its order.
    pub fn fields(&self) -> Vec<&Node> {
        let mut out = Vec::new();
        self.own.iter().for_each(|n| n.walk(&mut out));
        self.sections.iter().flat_map(|s| &s.nodes).for_each(|n| n.walk(&mut out));
        out
    }
    /// Every field of a list's row.
    pub fn of_rows(&self) -> Vec<(&Section, Vec<&Node>)> {
        self.rows
            .iter()
            .map(|section| {
                let mut out = Vec::new();
                section.nodes.iter().for_each(|n| n.walk(&mut out));
                (section, out)
            })
            .collect()
    }
    /// The words that a choice has.
    pub fn choices(&self, node: &Node) -> Vec<(String, String)> {
        if node.kind() == "gauge" {
            return self.gauges.gauge.iter().map(|g| (g.name.clone(), g.words.clone())).collect();
        }
        match (&node.entry.choices, &node.entry.of) {
            (Some(own), _) => own.words(),
            (None, Some(of)) if node.kind() == "choice" => {
                self.choices.choice.iter().find(|c| c.name == *of).map(|c| c.choices.words()).unwrap_or_default()
            }
            _ => Vec::new(),
        }
    }
}

/// Reads every file of a folder.
pub fn read(folder: &str) -> Result<Sheet, Vec<String>> {
    let mut reader = Reader { folder, faults: Vec::new() };
    let sheet = reader.sheet();
    match sheet {
        Some(sheet) if reader.faults.is_empty() => Ok(sheet),
        _ => Err(reader.faults),
    }
}

struct Reader<'a> {
    folder: &'a str,
    faults: Vec<String>,
}

impl Reader<'_> {
    fn file<T: serde::de::DeserializeOwned>(&mut self, name: &str) -> Option<T> {
        let path = format!("{}/{name}.toml", self.folder);
        let read = std::fs::read_to_string(&path).map_err(|e| e.to_string());
        match read.and_then(|text| toml::from_str(&text).map_err(|e| e.to_string())) {
            Ok(parsed) => Some(parsed),
            Err(error) => {
                self.faults.push(format!("{path}: {error}"));
                None
            }
        }
    }

    fn sheet(&mut self) -> Option<Sheet> {
        let whole: SheetFile = self.file("sheet")?;
        let gauges: Gauges = self.file("gauge-kinds")?;
        let kinds: Kinds = self.file("kinds")?;
        let choices: ChoiceLists = self.file("choices")?;
        let mut shared = BTreeMap::new();
        let mut groups = Vec::new();
        for name in ["part", "card", "fastener"] {
            let group: File = self.file(&format!("groups/{name}"))?;
            let head = group.group.clone().unwrap_or_default();
            groups.push((name.to_owned(), head.words, group.field.clone()));
            shared.insert(name.to_owned(), group);
        }
        let mut rows = Vec::new();
        for name in &whole.sheet.rows {
            let file: File = self.file(&format!("rows/{name}"))?;
            shared.insert(name.clone(), file.clone());
            rows.push((name.clone(), file));
        }
        let mut sections = Vec::new();
        for name in &whole.sheet.sections {
            let file: File = self.file(name)?;
            let Some(head) = file.section else {
                self.faults.push(format!("{name}.toml has no [section]"));
                continue;
            };
            if head.name != *name {
                self.faults.push(format!("{name}.toml is of the section {}", head.name));
            }
            let nodes = self.nodes(name, &head, file.field, &shared);
            sections.push(Section { head, nodes });
        }
        let mut readings = Vec::new();
        for name in &whole.sheet.readings {
            let file: File = self.file(&format!("readings/{name}"))?;
            let head = Head { name: "readings".to_owned(), step: Some("machine".to_owned()), ..Head::default() };
            readings.extend(self.nodes("readings", &head, file.field, &shared));
        }
        let rows = rows
            .into_iter()
            .filter_map(|(name, file)| {
                let head = file.rows.clone()?;
                let nodes = self.nodes(&name, &head, file.field, &shared);
                Some(Section { head, nodes })
            })
            .collect();
        let plain = Head { step: Some("order".to_owned()), ..Head::default() };
        let own = self.nodes("", &plain, whole.field, &shared);
        Some(Sheet { head: whole.sheet, own, sections, readings, rows, gauges, kinds, choices, groups })
    }

    /// The entries of one file as a tree, with what they share written out.
    fn nodes(&mut self, name: &str, head: &Head, entries: Vec<Entry>, shared: &BTreeMap<String, File>) -> Vec<Node> {
        let step = head.step.clone().unwrap_or_else(|| "parts".to_owned());
        let mut root = Node {
            path: name.to_owned(),
            entry: Entry { notes: head.notes, ..Entry::default() },
            step: step.clone(),
            shared: None,
            children: Vec::new(),
        };
        for mut entry in entries {
            // the row itself, wherever it stands: somewhere it is judged
            if !entry.judged_in.is_empty() {
                entry.recorded = None;
            } else if entry.recorded.is_none() && entry.read_by.is_none() {
                entry.read_by.clone_from(&head.read_by);
            }
            self.place(&mut root, entry, &step, shared);
        }
        end_with_notes(&mut root);
        root.children
    }

    fn place(&mut self, root: &mut Node, entry: Entry, step: &str, shared: &BTreeMap<String, File>) {
        let path = entry.path.clone();
        if let Some(name) = entry.all_of.clone() {
            let Some(group) = shared.get(&name) else {
                self.faults.push(format!("{path}: there is nothing called {name} to have all of"));
                return;
            };
            if find(root, &path).is_none() {
                let words = group.group.as_ref().map(|g| g.words.clone());
                let whole = Entry { path: path.clone(), kind: Some("section".to_owned()), words, ..Entry::default() };
                self.place(root, whole, step, shared);
            }
            self.write_out(root, &path, group, step, shared);
            return;
        }
        // an entry that says no more of a field than what is otherwise there
        if entry.words.is_none() {
            match find(root, &path) {
                Some(there) => {
                    there.entry.band = entry.band.or_else(|| there.entry.band.take());
                    if !entry.usual.is_empty() {
                        there.entry.usual = entry.usual;
                        there.entry.recorded = None;
                    }
                }
                None => self.faults.push(format!("{path}: no words")),
            }
            return;
        }
        let parent = path.rsplit_once('.').map_or("", |(parent, _)| parent).to_owned();
        let of_row = (entry.kind.as_deref() == Some("row")).then(|| entry.of.clone().unwrap_or_default());
        let step = match &entry.step {
            Some(own) => own.clone(),
            None if path.contains(".card.") => "card".to_owned(),
            None => step.to_owned(),
        };
        let node = Node { path: path.clone(), entry, step: step.clone(), shared: None, children: Vec::new() };
        match find(root, &parent) {
            Some(at) if at.children.iter().any(|c| c.path == path) => self.faults.push(format!("{path} stands twice")),
            Some(at) => at.children.push(node),
            None => self.faults.push(format!("{path}: there is no section {parent}")),
        }
        if let Some(name) = of_row {
            match shared.get(&name) {
                Some(file) => self.write_out(root, &path, file, &step, shared),
                None => self.faults.push(format!("{path}: there are no rows called {name}")),
            }
        }
    }

    /// The fields that several have, at one of them.
    fn write_out(&mut self, root: &mut Node, at: &str, file: &File, step: &str, shared: &BTreeMap<String, File>) {
        for entry in &file.field {
            let key = match &file.rows {
                Some(head) => entry.path.strip_prefix(&format!("{}.", head.name)).unwrap_or(&entry.path),
                None => &entry.path,
            };
            let mut own = entry.clone();
            own.path = format!("{at}.{key}");
            own.starter |= own.starter_in.iter().any(|p| p == at);
            if !own.judged_in.is_empty() {
                match own.judged_in.iter().any(|p| p == at) {
                    true => own.recorded = None,
                    false => own.read_by = None,
                }
            }
            let path = own.path.clone();
            self.place(root, own, step, shared);
            let name = file.group.as_ref().or(file.rows.as_ref()).map(|h| h.name.clone());
            if let Some(there) = find(root, &path) {
                there.shared = name;
            }
        }
    }
}

fn find<'a>(root: &'a mut Node, path: &str) -> Option<&'a mut Node> {
    if root.path == path {
        return Some(root);
    }
    let child = root.children.iter_mut().find(|c| path == c.path || path.starts_with(&format!("{}.", c.path)))?;
    find(child, path)
}

fn end_with_notes(node: &mut Node) {
    for child in &mut node.children {
        end_with_notes(child);
    }
    if node.entry.notes {
        let path = if node.path.is_empty() { "notes".to_owned() } else { format!("{}.notes", node.path) };
        let entry = Entry {
            path: path.clone(),
            words: Some(NOTES.to_owned()),
            kind: Some("notes".to_owned()),
            recorded: Some(FOR_PEOPLE.to_owned()),
            ..Entry::default()
        };
        node.children.push(Node { path, entry, step: node.step.clone(), shared: None, children: Vec::new() });
    }
}
