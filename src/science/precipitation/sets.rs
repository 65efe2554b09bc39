//! Published constants of hydroxides and of what dissolves from them, metal by metal.
//!
//! Two sets for each metal, kept apart: they part by up to a hundred times, which is how well such a curve is known.

use crate::science::ph::activity::Size::{self, Davies, Neutral, Sized};

/// Something that dissolves, made of `metals` metal ions by giving off `lost` hydrogen ions.
#[derive(Clone, Copy, Debug)]
pub struct Species {
    /// Metal ions in it.
    pub metals: i32,
    /// Hydrogen ions given off as it forms.
    pub lost: i32,
    /// Nitrate ions of the background that it binds.
    pub nitrates: i32,
    /// Decadic logarithm of the constant of that, at 25 °C and infinite dilution.
    pub log_k: f64,
    /// Its charge.
    pub charge: i8,
    /// How its activity is found.
    pub size: Size,
}

/// A hydroxide or oxide, and what dissolves from it, in one published set of constants.
#[derive(Debug)]
pub struct Set {
    /// The metal.
    pub metal: &'static str,
    /// The charge of its ion: hydroxide that falls with each.
    pub charge: f64,
    /// The solid.
    pub solid: &'static str,
    /// Decadic logarithm of the constant of its dissolving in acid, for one metal ion.
    pub log_k: f64,
    /// What dissolves.
    pub species: &'static [Species],
}

/// The limiting law of Debye and Hückel: what the first file gives most of its species.
const LIMIT: Size = Sized(0.0, 0.0);
/// Of the specific ion interaction theory, 1.5 for B·å, without its term in the ions met.
const SIT: Size = Sized(4.57, 0.0);

const fn mono(lost: i32, log_k: f64, charge: i8, size: Size) -> Species {
    Species { metals: 1, lost, nitrates: 0, log_k, charge, size }
}

const fn poly(metals: i32, lost: i32, log_k: f64, charge: i8, size: Size) -> Species {
    Species { metals, ..mono(lost, log_k, charge, size) }
}

const fn nitrate(nitrates: i32, log_k: f64, charge: i8, size: Size) -> Species {
    Species { nitrates, ..mono(0, log_k, charge, size) }
}

const fn set(
    metal: &'static str,
    charge: f64,
    solid: &'static str,
    log_k: f64,
    species: &'static [Species],
) -> Set {
    Set { metal, charge, solid, log_k, species }
}

/// EPA MINTEQA2 version 4 (NIST 46), as the file minteq.v4.dat of PHREEQC 3.8.6 carries it, with its activities.
pub static FIRST: &[Set] = &[
    set(
        "Cu",
        2.0,
        "Cu(OH)2",
        8.674,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -7.497, 1, Sized(4.0, 0.0)),
            mono(2, -16.194, 0, Neutral),
            mono(3, -26.879, -1, LIMIT),
            mono(4, -39.98, -2, LIMIT),
            poly(2, 2, -10.594, 2, LIMIT),
            nitrate(1, 0.5, 1, LIMIT),
        ],
    ),
    set(
        "Ni",
        2.0,
        "Ni(OH)2",
        12.794,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -9.897, 1, LIMIT),
            mono(2, -18.994, 0, Neutral),
            mono(3, -29.991, -1, LIMIT),
            nitrate(1, 0.4, 1, LIMIT),
        ],
    ),
    set(
        "Zn",
        2.0,
        "Zn(OH)2",
        12.2,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -8.997, 1, LIMIT),
            mono(2, -17.794, 0, Neutral),
            mono(3, -28.091, -1, LIMIT),
            mono(4, -40.488, -2, LIMIT),
            nitrate(1, 0.4, 1, LIMIT),
        ],
    ),
    set(
        "Ag",
        1.0,
        "Ag2O",
        6.287,
        &[
            mono(0, 0.0, 1, Davies),
            mono(1, -11.997, 0, Neutral),
            mono(2, -24.004, -1, LIMIT),
            nitrate(1, -0.1, 0, Neutral),
        ],
    ),
    set(
        "Pb",
        2.0,
        "Pb(OH)2",
        8.15,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -7.597, 1, LIMIT),
            mono(2, -17.094, 0, Neutral),
            mono(3, -28.091, -1, LIMIT),
            mono(4, -39.699, -2, LIMIT),
            poly(3, 4, -23.888, 2, LIMIT),
            nitrate(1, 1.17, 1, LIMIT),
            nitrate(2, 1.4, 0, Neutral),
        ],
    ),
    set(
        "Sn",
        2.0,
        "SnO",
        2.1799,
        &[
            mono(0, 0.0, 2, LIMIT),
            mono(1, -3.397, 1, LIMIT),
            mono(2, -7.094, 0, Neutral),
            mono(3, -16.591, -1, LIMIT),
            mono(3, -16.0287, -1, LIMIT),
            poly(2, 2, -4.794, 2, LIMIT),
            poly(3, 4, -6.888, 2, LIMIT),
            nitrate(1, 0.848, 1, LIMIT),
        ],
    ),
    set(
        "Co",
        2.0,
        "Co(OH)2",
        13.094,
        &[
            mono(0, 0.0, 2, LIMIT),
            mono(1, -9.697, 1, LIMIT),
            mono(2, -18.794, 0, Neutral),
            mono(3, -31.491, -1, LIMIT),
            mono(3, -32.0915, -1, LIMIT),
            mono(4, -46.288, -2, LIMIT),
            nitrate(1, 0.2, 1, LIMIT),
            nitrate(2, 0.5085, 0, Neutral),
        ],
    ),
    set(
        "Cd",
        2.0,
        "Cd(OH)2",
        13.644,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -10.097, 1, LIMIT),
            mono(2, -20.294, 0, Neutral),
            mono(3, -32.505, -1, LIMIT),
            mono(4, -47.288, -2, LIMIT),
            nitrate(1, 0.5, 1, LIMIT),
        ],
    ),
    // The amorphous hydroxide, as it falls; its constants are given there by Cr(OH)2+.
    set(
        "Cr",
        3.0,
        "Cr(OH)3",
        8.8188,
        &[
            mono(0, 0.0, 3, LIMIT),
            mono(1, -3.657, 2, LIMIT),
            mono(2, -9.5688, 1, LIMIT),
            mono(3, -17.991, 0, Neutral),
            mono(4, -27.388, -1, LIMIT),
            mono(4, -27.3144, -1, LIMIT),
            nitrate(1, -1.3594, 2, LIMIT),
        ],
    ),
];

/// WATEQ4F of the USGS, as wateq4f.dat of PHREEQC 3.8.6 carries it; for tin, cobalt and chromium, which it has not,
/// ThermoChimie, as its sit.dat carries it.
pub static SECOND: &[Set] = &[
    set(
        "Cu",
        2.0,
        "Cu(OH)2",
        8.64,
        &[
            mono(0, 0.0, 2, Sized(6.0, 0.0)),
            mono(1, -8.0, 1, Sized(4.0, 0.0)),
            mono(2, -13.68, 0, Neutral),
            mono(3, -26.9, -1, Davies),
            mono(4, -39.6, -2, Davies),
            poly(2, 2, -10.359, 2, Davies),
        ],
    ),
    set(
        "Ni",
        2.0,
        "Ni(OH)2",
        10.8,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -9.86, 1, Davies),
            mono(2, -19.0, 0, Neutral),
            mono(3, -30.0, -1, Davies),
        ],
    ),
    set(
        "Zn",
        2.0,
        "Zn(OH)2",
        12.2,
        &[
            mono(0, 0.0, 2, Sized(6.0, 0.0)),
            mono(1, -8.96, 1, Davies),
            mono(2, -16.9, 0, Neutral),
            mono(3, -28.4, -1, Davies),
            mono(4, -41.2, -2, Davies),
        ],
    ),
    set(
        "Ag",
        1.0,
        "Ag2O",
        6.29,
        &[
            mono(0, 0.0, 1, Davies),
            mono(1, -12.0, 0, Neutral),
            mono(2, -24.0, -1, Davies),
            nitrate(1, -0.29, 0, Neutral),
        ],
    ),
    set(
        "Pb",
        2.0,
        "Pb(OH)2",
        8.15,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -7.71, 1, Davies),
            mono(2, -17.12, 0, Neutral),
            mono(3, -28.06, -1, Davies),
            mono(4, -39.7, -2, Davies),
            poly(3, 4, -23.88, 2, Davies),
            nitrate(1, 1.17, 1, Davies),
        ],
    ),
    set(
        "Sn",
        2.0,
        "SnO",
        1.59,
        &[
            mono(0, 0.0, 2, SIT),
            mono(1, -3.53, 1, SIT),
            mono(2, -7.68, 0, Sized(0.0, 0.0)),
            mono(3, -16.43, -1, Sized(4.57, 0.22)),
            poly(3, 4, -5.6, 2, SIT),
        ],
    ),
    set(
        "Co",
        2.0,
        "Co(OH)2",
        13.2,
        &[
            mono(0, 0.0, 2, Sized(4.57, 0.14)),
            mono(1, -9.23, 1, SIT),
            mono(2, -18.6, 0, Sized(0.0, 0.0)),
            mono(3, -31.7, -1, SIT),
            mono(4, -46.42, -2, SIT),
        ],
    ),
    set(
        "Cd",
        2.0,
        "Cd(OH)2",
        13.65,
        &[
            mono(0, 0.0, 2, Davies),
            mono(1, -10.08, 1, Davies),
            mono(2, -20.35, 0, Neutral),
            mono(3, -33.3, -1, Davies),
            mono(4, -47.35, -2, Davies),
            nitrate(1, 0.4, 1, Davies),
        ],
    ),
    set(
        "Cr",
        3.0,
        "Cr(OH)3",
        7.5,
        &[
            mono(0, 0.0, 3, Sized(4.57, 0.27)),
            mono(1, -3.42, 2, SIT),
            mono(2, -8.9, 1, SIT),
            mono(3, -14.34, 0, Sized(0.0, 0.0)),
            mono(4, -25.86, -1, SIT),
            poly(2, 2, -4.0, 4, SIT),
            poly(3, 4, -7.6, 5, SIT),
        ],
    ),
];
