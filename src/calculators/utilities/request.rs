//! What of the sheet of utilities goes to the building's engineer on one page.

/// One line of its first table: what it is, and the answers for its peak, its mean and its day; empty for none.
pub struct Sum {
    /// What is asked for.
    pub label: &'static str,
    /// Answers of the sheet.
    pub symbols: [&'static str; 3],
    /// What else belongs to it: answers or inputs, each with its own label.
    pub besides: &'static [&'static str],
}

const fn sum(label: &'static str, symbols: [&'static str; 3], besides: &'static [&'static str]) -> Sum {
    Sum { label, symbols, besides }
}

/// What the building is asked for, in all.
pub static SUMS: &[Sum] = &[
    sum("Electrical load", ["P_c", "P_m", "W_d"], &["f_c", "U", "I_f", "S_f"]),
    sum("Exhaust", ["e_p", "e_m", ""], &["E_h"]),
    sum("Compressed air", ["a_p", "a_m", ""], &["p_s", "a_r", "a_s", "P_k"]),
    sum("Nitrogen", ["g_p", "g_m", ""], &[]),
    sum("DI water", ["w_p", "w_m", "w_d"], &[]),
    sum("Hot water", ["h_p", "h_m", ""], &[]),
    sum("Heat of hot water", ["H_p", "H_m", ""], &[]),
    sum("Cold water", ["k_p", "k_m", ""], &[]),
    sum("Cooling by cold water", ["K_p", "K_m", ""], &[]),
    sum("Heat by steam", ["S_p", "S_m", ""], &[]),
    sum("Heat to the room", ["r_p", "r_m", ""], &[]),
    sum("Into all drains", ["d_p", "d_m", ""], &["n_d", "n_l", "n_r", "n_o"]),
    sum("Leaves or is taken away", ["", "", "x_d"], &["n_k", "m_k"]),
    sum("Dry sludge", ["", "", "m_s"], &[]),
    sum("Floor: footprint, with clearance", ["F_a", "F_s", ""], &[]),
];

/// Tables whose rows follow, in this order; the first answers of each are its peak and its mean.
pub static TABLES: &[&str] = &[
    super::PHASES,
    super::POWER,
    super::EXHAUST,
    super::AIR,
    super::NITROGEN,
    super::WATER,
    super::HOT,
    super::COLD,
    super::STEAM,
    super::ROOM,
    super::INTO_DRAINS,
    super::SEWER,
    super::FLOOR,
];
