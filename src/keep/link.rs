//! A whole plan within an address, behind the `#` that no server ever sees.
//!
//! `2.CHECK.LENGTH.PAYLOAD`: the version of this form, the check sum and the number of bytes of what is
//! packed, and that itself in the letters of base64url (RFC 4648, section 5). What is packed is the plan's
//! JSON, by DEFLATE with words that plans are made of (`extras/src/packed.rs`). Links of version 1 are
//! DEFLATE (RFC 1951) alone, which the browser unpacks (`unpack`). Every version is read for ever.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// Longer links than this, with the address of the site, may be cut or refused on their way.
/// Source: RFC 9110, section 4.1: all senders and recipients should support at least 8000 octets.
pub const SAFE: usize = 8000;

/// The longest link that a code for cameras holds, in bytes: version 40, lowest level of error correction.
/// Source: ISO/IEC 18004:2015, table 7.
pub const SCANNED: usize = 2953;

/// A longer link is not looked into, in characters: no plan within its limits needs as many.
pub const LONGEST: usize = 64 * 1024;

/// A packed plan is never taken to be larger than so many times its packed size once it is past
/// [`FREE`] bytes: text packs to a fifth or a tenth, and more is made to fill the memory.
pub const MOST_TIMES: usize = 100;

/// Up to here, in bytes, the ratio is not looked at.
pub const FREE: usize = 100_000;

/// What a link carries, by the way it is packed.
#[derive(Clone, Debug, PartialEq)]
pub enum Packed {
    /// Version 1: DEFLATE.
    Alone(Vec<u8>),
    /// Version 2: DEFLATE that looks back into words.
    WithWords(Vec<u8>),
}

/// The form that this code writes.
const NEWEST: &str = "2";

/// The part of an address that carries `packed`, in the newest form.
pub fn wrap(packed: &[u8]) -> String {
    format!("{NEWEST}.{:08x}.{}.{}", check(NEWEST, packed), packed.len(), URL_SAFE_NO_PAD.encode(packed))
}

/// What [`wrap`] carried, or what is wrong with it in a sentence. A changed, lost or added character is always
/// noticed.
pub fn unwrap(text: &str) -> Result<Packed, String> {
    if text.len() > LONGEST {
        return Err(format!("This link is longer than {} kB, which no plan needs.", LONGEST / 1024));
    }
    let mut parts = text.split('.');
    let [version, sum, length, payload] = [(); 4].map(|()| parts.next().unwrap_or_default());
    let of: fn(Vec<u8>) -> Packed = if version == "1" { Packed::Alone } else { Packed::WithWords };
    let is_known = ["1", NEWEST].contains(&version);
    if !is_known && version.len() < 4 && version.parse::<u16>().is_ok_and(|version| version > 2) {
        return Err("This link was made by a newer version of Bathbook. Reload the page to get it, then open the link again.".into());
    }
    let damaged = || {
        let had = payload.len();
        let hint =
            match length.parse::<usize>().ok().filter(|_| length.len() < 6).map(|n| (n * 4).div_ceil(3)) {
                Some(wanted) if had < wanted => {
                    let missing = wanted - had;
                    let are = if missing == 1 { "is" } else { "are" };
                    format!(" {missing} of its characters {are} missing at the end.")
                }
                _ => String::new(),
            };
        format!("This link was damaged on its way.{hint} Ask for it again, or for the plan as a file.")
    };
    let whole = is_known && parts.next().is_none();
    let packed = whole.then(|| URL_SAFE_NO_PAD.decode(payload).ok()).flatten().ok_or_else(damaged)?;
    let same = length == packed.len().to_string() && sum == format!("{:08x}", check(version, &packed));
    if same { Ok(of(packed)) } else { Err(damaged()) }
}

/// How many bytes may come out of so many packed ones, at most.
pub fn most(packed: usize) -> usize {
    FREE.max(packed.saturating_mul(MOST_TIMES)).min(crate::plan::limits::LARGEST)
}

/// Adler-32 (RFC 1950): one changed byte always changes it, and the length is told besides. From version 2 on the
/// version's own figure is counted in, as it says how to unpack.
fn check(version: &str, bytes: &[u8]) -> u32 {
    let mut sum = adler2::Adler32::new();
    if version != "1" {
        sum.write_slice(version.as_bytes());
    }
    sum.write_slice(bytes);
    sum.checksum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_sum_is_the_published_one() {
        // By hand after RFC 1950, of "abc": a = 1 + 97 + 98 + 99 = 0x127, b = 98 + 196 + 295 = 0x24d; of "2abc":
        // a = 1 + 50 + 97 + 98 + 99 = 0x159, b = 51 + 148 + 246 + 345 = 0x316.
        assert_eq!(unwrap("1.024d0127.3.YWJj"), Ok(Packed::Alone(b"abc".to_vec())));
        assert_eq!(wrap(b"abc"), "2.03160159.3.YWJj");
        assert!(unwrap("1.03160159.3.YWJj").is_err() && unwrap("2.024d0127.3.YWJj").is_err());
    }

    #[test]
    fn every_changed_lost_or_added_character_is_noticed() {
        let packed: Vec<u8> = (0..200u16).map(|k| (k * 37 % 251) as u8).collect();
        let link = wrap(&packed);
        assert_eq!(unwrap(&link), Ok(Packed::WithWords(packed)));
        for at in 0..link.len() {
            let (before, after) = link.split_at(at);
            let rest = &after[1..];
            assert!(unwrap(&format!("{before}{rest}")).is_err(), "{at} lost");
            assert!(unwrap(before).is_err(), "cut at {at}");
            for letter in "0aZ-_.=% ".chars().filter(|letter| !after.starts_with(*letter)) {
                assert!(unwrap(&format!("{before}{letter}{rest}")).is_err(), "{letter} at {at}");
            }
        }
        assert!(unwrap(&format!("{link}A")).is_err() && unwrap(&format!("{link}.")).is_err());
    }

    #[test]
    fn the_longest_link_that_is_offered_as_a_code_fits_into_one() {
        assert_eq!(SCANNED, bathbook_extras::code::LONGEST);
    }

    #[test]
    fn a_cut_link_says_how_much_is_missing() {
        let link = wrap(&[7; 90]);
        assert!(unwrap(&link[..link.len() - 5]).unwrap_err().contains("5 of its characters are missing"));
        assert!(unwrap(&link[..link.len() - 1]).unwrap_err().contains("1 of its characters is missing"));
        assert!(unwrap("3.whatever").unwrap_err().contains("newer version"));
    }

    #[test]
    fn a_small_link_cannot_fill_the_memory() {
        // DEFLATE reaches about 1032 to 1: 40 kB could become 41 MB.
        assert_eq!(most(40_000), crate::plan::limits::LARGEST);
        assert_eq!((most(100), most(1000), most(3000)), (100_000, 100_000, 300_000));
    }
}
