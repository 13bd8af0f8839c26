//! What our shop leaves between the parts.

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out"];
}

// In the order of the job.
thou_sdk::rules![end_play];

thou_sdk::pack!(thou_sdk::Pack::new("our-shop", "Our numbers", "What our shop leaves.", FACTS, RULES));
