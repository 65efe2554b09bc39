//! Texts as sentences. Reasons are written as clauses or as sentences; what shows one asks here, so that
//! all read alike.

/// A clause as a sentence: a capital first and one full stop last. What begins with a symbol (pH, mL, w)
/// keeps its small letter.
pub fn sentence(text: &str) -> String {
    let open = text.trim().trim_end_matches(['.', ' ']);
    let dot = if open.is_empty() || open.ends_with(['!', '?', '…']) { "" } else { "." };
    let word = first_word(open);
    let is_symbol =
        word.chars().skip(1).any(char::is_uppercase) || (word.chars().count() == 1 && word != "a");
    let mut letters = open.chars();
    match letters.next().filter(|_| !is_symbol) {
        Some(first) => format!("{}{}{dot}", first.to_uppercase(), letters.as_str()),
        None => format!("{open}{dot}"),
    }
}

/// A label as it stands within a sentence: "bath temperature"; pH, NaOH and Cu stay as they are.
pub fn within(label: &str) -> String {
    let word = first_word(label);
    let is_symbol = word.chars().skip(1).any(char::is_uppercase) || word.chars().count() < 3;
    let mut letters = label.chars();
    match letters.next().filter(|_| !is_symbol) {
        Some(first) => format!("{}{}", first.to_lowercase(), letters.as_str()),
        None => label.into(),
    }
}

fn first_word(text: &str) -> &str {
    text.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default()
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
