//! What keeps a pack from ever being given a fact.

use crate::facts::Catalogue;
use thou_contract::{FactUse, Manifest};

/// What keeps a fact from ever being given as the pack asks for it.
pub(super) fn lack(m: &Manifest, fact: &FactUse) -> Option<String> {
    if fact.id.starts_with("extra.") {
        let declared = m.inputs.iter().any(|i| i.id == fact.id);
        return (!declared).then(|| "no `inputs` of this pack adds this field".to_owned());
    }
    let Some(info) = Catalogue::standard().info(&fact.id) else {
        return Some(
            "this thou has no such fact: it is never given, and a rule that needs it is never asked".to_owned(),
        );
    };
    let (kind, axis) = (info.value.id(), info.axis.id());
    let differs = [(kind, &fact.kind), (axis, &fact.axis)].into_iter().filter(|(ours, its)| ours != its);
    let told: Vec<String> = differs.map(|(ours, its)| format!("{ours} and not {its}")).collect();
    (!told.is_empty()).then(|| format!("in this thou it is {}", told.join(", ")))
}
