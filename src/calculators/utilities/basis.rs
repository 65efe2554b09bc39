//! What the peak and the mean of a row are, in words: the peak first.

/// A heater or a coil.
pub const HOLDS: &str = "at the start; as holding takes it";
/// A rectifier.
pub const PLATES: &str = "all chambers at their highest; in service";
/// What runs for a share of the time.
pub const IN_USE: &str = "connected; by the share in use";
/// What its sheet has as one number.
pub const STEADY: &str = "as its sheet has it; the same";
/// Openings that are drawn off.
pub const OPEN: &str = "all open; as open in the mean";
/// What never stops.
pub const ALWAYS: &str = "runs day and night; the same";
/// What runs as long as the line is in service.
pub const RUNS: &str = "while it runs; the same";
/// Water that is known by the day.
pub const BY_DAY: &str = "mean in service; the same";
/// A pump of a lift station.
pub const PUMPS: &str = "while it pumps; as what arrives takes it";
/// A pump of a delivery line.
pub const DELIVERS: &str = "while it delivers; as its supply takes it";
/// The same where nobody says how much is delivered.
pub const UNKNOWN_SUPPLY: &str = "while it delivers; the same, as no supply is known";
/// Rinses of a bed of resin.
pub const RINSES: &str = "fast rinse; all of a regeneration, by the day";
/// What runs into a drain.
pub const ARRIVES: &str = "peak with the tank let out; mean";
/// Floor.
pub const STANDS: &str = "footprint; with its clearance";

/// All of these.
pub const ALL: &[&str] = &[
    HOLDS,
    PLATES,
    IN_USE,
    STEADY,
    OPEN,
    ALWAYS,
    RUNS,
    BY_DAY,
    PUMPS,
    DELIVERS,
    UNKNOWN_SUPPLY,
    RINSES,
    ARRIVES,
    STANDS,
];
