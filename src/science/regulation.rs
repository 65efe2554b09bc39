//! Published limits on discharge, and what must never meet.
//!
//! US federal rules only, as a start: local limits are often stricter, and the permit rules. Check
//! them in the current code before use.

/// Which published table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// 40 CFR 433.15: metal finishing, existing source, to a public sewer.
    Existing433,
    /// 40 CFR 433.17: metal finishing, new source, to a public sewer.
    New433,
    /// 40 CFR 413, 38 000 L (10 000 US gal) a day and more: job shops, existing source.
    JobShop413,
    /// 40 CFR 413, less than that.
    SmallJobShop413,
    /// 40 CFR 469.18: semiconductors, new source, to a public sewer.
    Semiconductor469,
}

/// A limit on one pollutant, in mg/L.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The table it stands in.
    pub rule: Rule,
    /// Chemical symbol, or "CN total", "CN amenable", "TTO" (total toxic organics), "total metals".
    pub pollutant: &'static str,
    /// Most on any one day.
    pub daily: f64,
    /// Most as an average, over the month in part 433 and over four days in part 413; TTO has none.
    pub average: Option<f64>,
    /// Whether it is from memory, not read in the source or a copy of it.
    pub from_memory: bool,
}

const fn limit(rule: Rule, pollutant: &'static str, daily: f64, average: f64) -> Limit {
    Limit { rule, pollutant, daily, average: Some(average), from_memory: false }
}

const fn no_average(rule: Rule, pollutant: &'static str, daily: f64) -> Limit {
    Limit { rule, pollutant, daily, average: None, from_memory: false }
}

const fn remembered(rule: Rule, pollutant: &'static str, daily: f64, average: f64) -> Limit {
    Limit { rule, pollutant, daily, average: Some(average), from_memory: true }
}

use Rule::*;

/// Every published limit.
///
/// Sources: 40 CFR 433.15 (copy of the code of 2007) and 433.17 (copy of the code of 2020), both read;
/// 40 CFR 413 by a public summary of it, whose line on total cyanide is a misprint and is given from
/// memory of the code; 40 CFR 469.18. Marked where from memory.
pub static LIMITS: &[Limit] = &[
    limit(Existing433, "Cd", 0.69, 0.26),
    limit(Existing433, "Cr", 2.77, 1.71),
    limit(Existing433, "Cu", 3.38, 2.07),
    limit(Existing433, "Pb", 0.69, 0.43),
    limit(Existing433, "Ni", 3.98, 2.38),
    limit(Existing433, "Ag", 0.43, 0.24),
    limit(Existing433, "Zn", 2.61, 1.48),
    limit(Existing433, "CN total", 1.20, 0.65),
    limit(Existing433, "CN amenable", 0.86, 0.32),
    no_average(Existing433, "TTO", 2.13),
    limit(New433, "Cd", 0.11, 0.07),
    limit(New433, "Cr", 2.77, 1.71),
    limit(New433, "Cu", 3.38, 2.07),
    limit(New433, "Pb", 0.69, 0.43),
    limit(New433, "Ni", 3.98, 2.38),
    limit(New433, "Ag", 0.43, 0.24),
    limit(New433, "Zn", 2.61, 1.48),
    limit(New433, "CN total", 1.20, 0.65),
    limit(New433, "CN amenable", 0.86, 0.32),
    no_average(New433, "TTO", 2.13),
    limit(JobShop413, "Cd", 1.2, 0.7),
    limit(JobShop413, "Cr", 7.0, 4.0),
    limit(JobShop413, "Cu", 4.5, 2.7),
    limit(JobShop413, "Pb", 0.6, 0.4),
    limit(JobShop413, "Ni", 4.1, 2.6),
    limit(JobShop413, "Zn", 4.2, 2.6),
    limit(JobShop413, "Ag", 1.2, 0.7),
    remembered(JobShop413, "CN total", 1.9, 1.0),
    remembered(JobShop413, "total metals", 10.5, 6.8),
    no_average(JobShop413, "TTO", 2.13),
    limit(SmallJobShop413, "Cd", 1.2, 0.7),
    limit(SmallJobShop413, "Pb", 0.6, 0.4),
    limit(SmallJobShop413, "CN amenable", 5.0, 2.7),
    no_average(SmallJobShop413, "TTO", 4.57),
    no_average(Semiconductor469, "TTO", 1.37),
];

/// The limit on a pollutant in a table; `None` where the table has none (there is no federal number
/// for Sn, In, Co, Pd, Pt and Au in parts 413 and 433), so that the permit's own must be typed.
pub fn limit_on(rule: Rule, pollutant: &str) -> Option<&'static Limit> {
    LIMITS.iter().find(|limit| limit.rule == rule && limit.pollutant == pollutant)
}

impl Rule {
    /// Its section.
    pub fn section(self) -> &'static str {
        match self {
            Existing433 => "40 CFR 433.15",
            New433 => "40 CFR 433.17",
            JobShop413 | SmallJobShop413 => "40 CFR 413",
            Semiconductor469 => "40 CFR 469.18",
        }
    }

    /// Whom it binds, in words.
    pub fn applies(self) -> &'static str {
        match self {
            Existing433 => {
                "Metal finishing that discharges to a public sewer and was there before the rule (building \
                 begun by 31 August 1982, from memory). All plants but job shops and independent makers of \
                 printed boards."
            }
            New433 => {
                "Metal finishing that discharges to a public sewer and was built later. A wafer plating line \
                 put in today is a new source as a rule; the control authority decides."
            }
            JobShop413 => {
                "Job shops (half or more of what they plate is not their own) and independent makers of \
                 printed boards, existing, from 38 000 L (10 000 US gal) a day of plating wastewater. A plant \
                 under all of 433.15 is not under this part (413.01)."
            }
            SmallJobShop413 => "The same, below 38 000 L (10 000 US gal) a day of plating wastewater.",
            Semiconductor469 => {
                "Semiconductor making, but not its electroplating, sputtering and vapour deposition (469.10): \
                 a wafer plating line comes under part 433."
            }
        }
    }

    /// Whether the part covers electroplating.
    pub fn covers_electroplating(self) -> bool {
        self != Semiconductor469
    }
}

/// Plating wastewater, in L a day, from which on a job shop has limits on all metals: 10 000 US gal.
/// Source: 40 CFR 413.
pub const LARGE_JOB_SHOP_L_PER_DAY: f64 = 38_000.0;
/// Least pH of what may go to a public sewer not built for less. Source: 40 CFR 403.5(b)(2).
pub const SEWER_LEAST_PH: f64 = 5.0;
/// Closed-cup flash point, in °C, below which nothing may go to a public sewer. Source: 40 CFR 403.5(b)(1).
pub const SEWER_LEAST_FLASH_POINT_C: f64 = 60.0;
/// Exposure limit for hydrogen cyanide over 8 hours, in ppm by volume, skin.
/// Source: OSHA PEL, in the header of NIOSH Method 6010.
pub const HCN_8_H_PPM: f64 = 10.0;
/// Exposure limit for hydrogen cyanide over 15 minutes, in ppm by volume, skin.
/// Source: NIOSH REL, in the header of NIOSH Method 6010.
pub const HCN_SHORT_PPM: f64 = 4.7;

#[cfg(test)]
mod tests {
    use super::*;

    /// 40 CFR 433.15 and 433.17: they differ in cadmium only, 0.69/0.26 and 0.11/0.07 mg/L.
    #[test]
    fn a_new_source_has_a_tighter_limit_on_cadmium_only() {
        for old in LIMITS.iter().filter(|limit| limit.rule == Existing433) {
            let new = limit_on(New433, old.pollutant).unwrap();
            let same = (new.daily, new.average) == (old.daily, old.average);
            assert_eq!(same, old.pollutant != "Cd", "{}", old.pollutant);
        }
        let cadmium = limit_on(New433, "Cd").unwrap();
        assert_eq!((cadmium.daily, cadmium.average), (0.11, Some(0.07)));
        assert_eq!(limit_on(New433, "Sn"), None);
    }

    /// A limit on an average is never above the one on a day.
    #[test]
    fn an_average_is_below_a_day() {
        for limit in LIMITS {
            assert!(limit.average.is_none_or(|average| average < limit.daily), "{limit:?}");
            assert_eq!(limit_on(limit.rule, limit.pollutant), Some(limit));
        }
    }
}
