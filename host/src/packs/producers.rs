//! Which language a component was written in, as its tools noted it in its `producers` sections (WebAssembly tool
//! conventions, "Producers Section").

use std::collections::BTreeSet;
use wasm_encoder::Encode;
use wasmparser::{BinaryReader, Parser, Payload, ProducersSectionReader};

pub(crate) const SECTION: &str = "producers";

/// Tools that carry a whole language with them, and which: their interpreter's own language is not the pack's.
const CARRIERS: [(&str, &str); 3] =
    [("componentize-py", "Python"), ("componentize-js", "JavaScript"), ("componentizejs", "JavaScript")];

/// The languages that a component's sections name, at every depth; an interpreter's own does not count.
pub(crate) fn languages(bytes: &[u8]) -> BTreeSet<String> {
    let (mut languages, mut carried) = (BTreeSet::new(), BTreeSet::new());
    for payload in Parser::new(0).parse_all(bytes).filter_map(Result::ok) {
        let Payload::CustomSection(section) = payload else { continue };
        if section.name() != SECTION {
            continue;
        }
        let Ok(fields) = ProducersSectionReader::new(BinaryReader::new(section.data(), section.data_offset())) else {
            continue;
        };
        for field in fields.into_iter().filter_map(Result::ok) {
            for value in field.values.into_iter().filter_map(Result::ok) {
                let tool = value.name.to_lowercase();
                carried.extend(CARRIERS.iter().filter(|(t, _)| *t == tool).map(|(_, language)| (*language).to_owned()));
                if field.name == "language" {
                    languages.insert(super::clean::clip(value.name, 30));
                }
            }
        }
    }
    if carried.is_empty() { languages } else { carried }
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
        tool.value("componentize-py", "0.17");
        let mut section = ProducersSection::new();
        section.field("language", &language).field("processed-by", &tool);
        let mut whole = Module::new();
        whole.section(&section);
        assert_eq!(languages(&whole.finish()), BTreeSet::from(["Python".to_owned()]));
    }
}
