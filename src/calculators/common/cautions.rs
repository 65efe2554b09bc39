//! Cautions that more than one sheet gives, in one wording. Common practice, no source.

use crate::calculator::{Caution, When};
use crate::calculators::make_up::meets;
use crate::science::plastics::plastics_soften;

pub const ACID_TEXT: &str = "Strong acid: face shield, apron and gloves; acid into water or the stirred bath, slowly, never water into acid; eyewash and shower within reach; two persons. Read the labels of drum and tank aloud: acid in the wrong bath can kill. The site’s rules and a trained person decide.";
pub const CAUSTIC_TEXT: &str = "Caustic burns eyes at once and heats water strongly: face shield, apron and gloves; in small portions into cold water or the stirred bath; eyewash and shower within reach; two persons. Read the labels of drum and tank aloud.";
pub const FLUORIDE_TEXT: &str =
    "Hydrofluoric acid never without the site’s own first aid for it, and never in glass.";
pub const HOT_TEXT: &str =
    concat!("It gets hot: add in portions, stir, and stop to cool at 45 °C. ", plastics_soften!());
pub const SAMPLE_TEXT: &str = "A sample is the bath: face shield or goggles, gloves and apron as for the bath itself, eyewash and shower within reach. From a closed port, into a bottle that stands in a second vessel; what is hot cools down there before it is carried.";
pub const CYANIDE_SAMPLE_TEXT: &str = "Cyanide kills: only persons trained and licensed for it, never alone, no acid on the bench, in the hood or in the waste bottle, with the site’s own first aid ready.";
pub const CYANIDE_BATH_TEXT: &str = "Keep every acid, its drain and its vent away from this bath and from what is drawn off: cyanide and acid give a gas that kills.";

/// What handling a chemical calls for: of sheets whose rows have a `hazard`, one of [`meets::HAZARDS`].
pub const STRONG_ACID: Caution =
    Caution { when: &[When::Is("hazard", &[meets::STRONG_ACID, meets::NITRIC])], text: ACID_TEXT };
pub const CAUSTIC: Caution = Caution { when: &[When::Is("hazard", &[meets::CAUSTIC])], text: CAUSTIC_TEXT };
pub const NICKEL: Caution = Caution {
    when: &[When::Is("hazard", &[meets::NICKEL])],
    text: "Dust and mist of nickel and cobalt salts can cause cancer and allergy: weigh under exhaust, with gloves and the respirator that the site prescribes; wipe up wet, never sweep.",
};
pub const CYANIDE: Caution = Caution {
    when: &[When::Is("hazard", &[meets::CYANIDE])],
    text: "Cyanide kills: only persons trained and licensed for it, never alone, never near any acid, with the site’s own first aid ready. Local law decides who may handle it.",
};
pub const FLUORIDE: Caution = Caution {
    when: &[When::Is("hazard", &[meets::FLUORIDE])],
    text: "Fluoride in acid is hydrofluoric acid: never without the site’s own first aid for it; no glass. Small burns can kill.",
};
pub const OXIDISER: Caution = Caution {
    when: &[When::Is("hazard", &[meets::OXIDISER, meets::NITRIC])],
    text: "Oxidisers set fire and gas: keep them from organics, resin and metal dust; never in a closed vessel.",
};
