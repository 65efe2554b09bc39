//! How wide a text is, estimated on the safe side, and cut where it does not fit.

/// The width of a text in a plain sans-serif face, in pixels at a size in pixels. Rather too wide than
/// too narrow, since nobody measures the reader's own face.
pub fn width(text: &str, size: f64) -> f64 {
    text.chars().map(em).sum::<f64>() * size
}

/// The width of a letter as a share of the size of type. From memory of common faces, rounded up.
fn em(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | '·' | '’' => 0.36,
        'f' | 'r' | 't' | '(' | ')' | '/' | ' ' | '\u{a0}' | '\u{202f}' | '-' => 0.42,
        'm' | 'M' | 'W' | '%' | '@' | '…' => 1.0,
        'w' | 'G' | 'O' | 'Q' | '■' | '▲' | '●' | '○' | '×' | '–' => 0.86,
        letter if letter.is_ascii_digit() || letter.is_ascii_lowercase() => 0.64,
        letter if (letter as u32) < 0x1100 => 0.76,
        _ => 1.15,
    }
}

/// The text itself if it fits, else as much of it as does, and "…".
pub fn cut(text: &str, size: f64, room: f64) -> String {
    if width(text, size) <= room {
        return text.to_string();
    }
    let room = room - width("…", size);
    let mut used = 0.0;
    let fits = |letter: &char| {
        used += em(*letter) * size;
        used <= room
    };
    let kept: String = text.chars().take_while(fits).collect();
    format!("{}…", kept.trim_end_matches([' ', '·', ',', '\u{a0}']))
}

/// The text in at most `most` lines, broken at spaces; what does not fit the last one is cut.
pub fn wrap(text: &str, size: f64, room: f64, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        // The longest start that fits and ends at a space; else the rest, which is then cut.
        let ends = rest.match_indices(' ').map(|(at, _)| at).chain([rest.len()]);
        let fits = ends.take_while(|end| width(&rest[..*end], size) <= room).last();
        let is_last = lines.len() + 1 >= most;
        let end = match fits {
            Some(end) if !is_last || end == rest.len() => end,
            _ if is_last => rest.len(),
            _ => rest.find(' ').unwrap_or(rest.len()),
        };
        lines.push(cut(rest[..end].trim_end_matches([' ', '·']), size, room));
        rest = rest[end..].trim_start();
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_too_long_is_cut_and_says_so() {
        assert_eq!(cut("Copper bath", 14.0, 200.0), "Copper bath");
        let cut_name = cut("Copper bath with a very long name", 14.0, 120.0);
        assert!(cut_name.ends_with('…') && cut_name.starts_with("Copper"), "{cut_name}");
        assert_eq!(wrap("Copper rinse, first", 14.0, 120.0, 2), ["Copper rinse,", "first"]);
        assert_eq!(wrap("Copper rinse, first", 14.0, 400.0, 2), ["Copper rinse, first"]);
        let three = wrap("Unbreakablelongword and more words than fit", 14.0, 90.0, 2);
        assert!(three.len() == 2 && three.iter().all(|line| line.ends_with('…')), "{three:?}");
        for room in [0.0, 5.0, 40.0, 90.0, 300.0] {
            let text = cut("Wäschespülung 槽 MMMM WWWW ■ %", 14.0, room);
            assert!(width(&text, 14.0) <= room.max(width("…", 14.0)) + 1e-9, "{text}");
        }
    }
}
