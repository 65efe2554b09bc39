//! Texts as sentences. Reasons are written as clauses or as sentences; what shows one asks here, so that
//! all read alike. Capitals are those of ASCII, as our words are: the tables of all others cost more of the
//! page than a name in small letters is worth.

/// A clause as a sentence: a capital first and one full stop last. What begins with a symbol (pH, mL, w)
/// keeps its small letter.
pub fn sentence(text: &str) -> String {
    let open = text.trim().trim_end_matches(['.', ' ']);
    let dot = if open.is_empty() || open.ends_with(['!', '?', '…']) { "" } else { "." };
    let word = first_word(open);
    let is_symbol = has_capital_within(word) || (word.len() == 1 && word != "a");
    let mut sentence = format!("{open}{dot}");
    if let Some(first) = sentence.get_mut(..1).filter(|_| !is_symbol) {
        first.make_ascii_uppercase();
    }
    sentence
}

/// A label as it stands within a sentence: "bath temperature"; pH, NaOH and Cu stay as they are.
pub fn within(label: &str) -> String {
    let word = first_word(label);
    let is_symbol = has_capital_within(word) || word.chars().count() < 3;
    let mut label = label.to_string();
    if let Some(first) = label.get_mut(..1).filter(|_| !is_symbol) {
        first.make_ascii_lowercase();
    }
    label
}

fn first_word(text: &str) -> &str {
    text.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default()
}

fn has_capital_within(word: &str) -> bool {
    word.bytes().skip(1).any(|letter| letter.is_ascii_uppercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clause_becomes_one_sentence() {
        for (clause, whole) in [
            ("no density is known here", "No density is known here."),
            ("The pipe has no bore.", "The pipe has no bore."),
            ("it stops.. ", "It stops."),
            ("a rinse never does", "A rinse never does."),
            ("pH of 15 is out of range", "pH of 15 is out of range."),
            ("w of 3 is too much", "w of 3 is too much."),
            ("“x(” cannot be read", "“x(” cannot be read."),
            ("is it so?", "Is it so?"),
            ("", ""),
        ] {
            assert_eq!(sentence(clause), whole);
            assert_eq!(sentence(whole), whole, "a sentence stays as it is");
        }
    }

    #[test]
    fn a_label_stands_within_a_sentence() {
        let names = ["Flow to drain", "pH", "NaOH added", "Cu", ""];
        assert_eq!(names.map(within), ["flow to drain", "pH", "NaOH added", "Cu", ""]);
    }
}
