//! The rules against their fixtures, without the sandbox.

#[test]
fn every_fixture_holds() {
    thou_sdk::fixtures::check(ring_gaps::PACK, "../fixtures");
}
