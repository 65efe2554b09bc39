//! Plastics in heat: at what temperature tanks, pipes and pumps soften.

/// A plastic, and about the temperature at which it softens, in °C.
///
/// From memory, no source: hot strong acid lowers it, load and wall thickness matter, and the maker's data rule.
pub const SOFTENS: [(&str, f64); 3] = [("PVC", 60.0), ("PP", 80.0), ("PVDF", 100.0)];

/// The lowest of [`SOFTENS`], in °C: above it the sheets speak of plastics.
pub const FIRST_SOFTENS: f64 = SOFTENS[0].1;

/// The next of [`SOFTENS`], in °C: a usual tank no longer stands it.
pub const SECOND_SOFTENS: f64 = SOFTENS[1].1;

/// Liquid burns skin from here, in °C (common practice, no source). Whoever mixes by hand stops here to cool,
/// well below where the first plastic softens.
pub const BURNS_SKIN: f64 = 45.0;

/// [`SOFTENS`] in words, the same on every sheet: it continues a sentence.
macro_rules! plastics_soften {
    () => {
        "PVC softens at about 60 °C, PP at 80, PVDF at 100 (from memory), lower in hot strong acid; the maker’s data rule."
    };
}
pub(crate) use plastics_soften;

/// Those of [`SOFTENS`] that are soft at a temperature in °C: “PVC”, “PVC and PP”; empty if none is.
pub fn soft_at(celsius: f64) -> String {
    let soft: Vec<&str> =
        SOFTENS.iter().filter(|(_, softens)| celsius > *softens).map(|(name, _)| *name).collect();
    match soft.split_last() {
        Some((last, [])) => (*last).into(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_say_what_the_table_says() {
        for (name, softens) in SOFTENS {
            let text = plastics_soften!();
            let at = text.find(name).unwrap();
            let number: String = text[at..]
                .chars()
                .skip_while(|c| !c.is_ascii_digit())
                .take_while(char::is_ascii_digit)
                .collect();
            assert_eq!(number.parse::<f64>().unwrap(), softens, "{name}");
        }
    }

    #[test]
    fn the_softest_plastic_goes_first() {
        let soft = [40.0, 60.0, 61.0, 85.0, 101.0].map(soft_at);
        assert_eq!(soft, ["", "", "PVC", "PVC and PP", "PVC, PP and PVDF"]);
    }
}
