//! What the rule says.
