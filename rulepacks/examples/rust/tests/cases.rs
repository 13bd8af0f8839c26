//! The rules against their cases, without the sandbox.

#[test]
fn every_case_holds() {
    thou_sdk::cases::check(ring_gaps::PACK, "..");
}
