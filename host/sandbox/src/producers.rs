//! Which language a component was written in, as its tools noted it in its `producers` sections (WebAssembly tool
//! conventions, "Producers Section").

use std::collections::BTreeSet;
use wasm_encoder::Encode;
use wasmparser::{BinaryReader, Parser, Payload, ProducersSectionReader};

pub(crate) const SECTION: &str = "producers";

/// Tools that say for which language they are, and not in the field for it.
const TOOLS: [(&str, &str); 3] =
    [("componentizejs", "JavaScript"), ("wit-bindgen-c", "C"), ("wit-bindgen-rust", "Rust")];
/// What componentize-py's interpreter exports; its sections do not name the language.
const PYTHON: &str = "PyInit_componentize_py_runtime";

/// The languages that a component's sections name, at every depth; an interpreter's own does not count.
pub(crate) fn languages(bytes: &[u8]) -> BTreeSet<String> {
    let (mut named, mut languages) = (BTreeSet::new(), BTreeSet::new());
    for payload in Parser::new(0).parse_all(bytes).filter_map(Result::ok) {
        match payload {
            Payload::CustomSection(section) if section.name() == SECTION => {
                let reader = BinaryReader::new(section.data(), section.data_offset());
                let fields = ProducersSectionReader::new(reader).into_iter().flatten().filter_map(Result::ok);
                for field in fields {
                    for value in field.values.into_iter().filter_map(Result::ok) {
                        let tool = value.name.to_lowercase();
                        languages.extend(TOOLS.iter().filter(|(t, _)| *t == tool).map(|(_, l)| (*l).to_owned()));
                        if field.name == "language" {
                            named.insert(super::clean::clip(value.name, 30));
                        }
                    }
                }
            }
            Payload::ExportSection(section)
                if section.clone().into_iter().filter_map(Result::ok).any(|e| e.name == PYTHON) =>
            {
                languages.insert("Python".to_owned());
            }
            _ => {}
        }
    }
    // an interpreter's own languages are not the pack's
    if languages.is_empty() { named } else { languages }
}

/// A section that names these languages, and no tool and no version.
pub(crate) fn section(languages: &BTreeSet<String>) -> Vec<u8> {
    let mut field = wasm_encoder::ProducersField::new();
    for language in languages {
        field.value(language, "");
    }
    let mut section = Vec::new();
    1_u32.encode(&mut section);
    "language".encode(&mut section);
    field.encode(&mut section);
    section
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{Component, Module, ProducersField, ProducersSection};

    #[test]
    fn what_is_written_is_read() {
        let named = BTreeSet::from(["C11".to_owned(), "Rust".to_owned()]);
        let with = |data: &[u8]| super::super::strip::with_section(Component::new().finish(), SECTION, data);
        assert_eq!(languages(&with(&section(&named))), named);
        assert_eq!(languages(&with(b"\x05nonsense")), BTreeSet::new());
    }

    #[test]
    fn an_interpreter_is_not_the_language_of_the_pack() {
        let (mut language, mut tool) = (ProducersField::new(), ProducersField::new());
        language.value("C11", "");
        tool.value("ComponentizeJS", "0.23.0");
        let mut section = ProducersSection::new();
        section.field("language", &language).field("processed-by", &tool);
        let mut whole = Module::new();
        whole.section(&section);
        assert_eq!(languages(&whole.finish()), BTreeSet::from(["JavaScript".to_owned()]));
        let mut exports = wasm_encoder::ExportSection::new();
        exports.export(PYTHON, wasm_encoder::ExportKind::Func, 0);
        let mut whole = Module::new();
        whole.section(&exports);
        assert_eq!(languages(&whole.finish()), BTreeSet::from(["Python".to_owned()]));
    }
}
