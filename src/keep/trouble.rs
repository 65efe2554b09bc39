//! Why a store did not take or give a plan, in words for the person whose plan it is.

/// What went wrong with a store of the browser.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// Another window holds the store in an older form.
    Blocked,
    /// A newer version of the app keeps its plans here, in a form that this one does not know.
    Newer,
    /// The store has no room left.
    Full,
    /// The browser gives no store: a private window, or storage turned off.
    Refused,
    /// The store went away while in use: its data were cleared, or the browser closed it.
    Gone,
    /// Anything else, as the browser put it.
    Unknown(String),
}

/// What `durable` calls it when another window keeps the database from being opened: the browser names no
/// error then.
pub const BLOCKED: &str = "Blocked";

impl Trouble {
    /// From the name that the browser gives its error; engines differ, and any failed write is a failed write.
    pub fn named(name: &str, message: &str) -> Trouble {
        match name {
            "QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED" => Trouble::Full,
            "SecurityError" | "NotAllowedError" => Trouble::Refused,
            "InvalidStateError" | "AbortError" | "TransactionInactiveError" => Trouble::Gone,
            "VersionError" => Trouble::Newer,
            BLOCKED => Trouble::Blocked,
            _ if message.to_ascii_lowercase().contains("quota") => Trouble::Full,
            _ if message.is_empty() => Trouble::Unknown(name.into()),
            _ => Trouble::Unknown(message.into()),
        }
    }

    /// What is wrong and what to do, as two sentences.
    pub fn words(&self) -> String {
        match self {
            Trouble::Blocked => {
                "Another window of this app, older than this one, holds the store. Close it and reload.".into()
            }
            Trouble::Newer => {
                "A newer version of Bathbook keeps its plans here. Reload the page to get it; until then save a file of what you change.".into()
            }
            Trouble::Full => {
                "The browser has no room left. Save a file, then remove plans in the bin for good, or free space on the device."
                    .into()
            }
            Trouble::Refused => {
                "The browser keeps nothing here: a private window, or site data are turned off. Save a file before you leave.".into()
            }
            Trouble::Gone => {
                "The browser closed its store. Save a file, then reload the page.".into()
            }
            Trouble::Unknown(text) => format!("The browser says: {text}. Save a file to be safe."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_store_is_known_in_every_engine() {
        assert_eq!(Trouble::named("QuotaExceededError", ""), Trouble::Full);
        assert_eq!(Trouble::named("UnknownError", "The quota has been exceeded."), Trouble::Full);
        assert_eq!(Trouble::named("UnknownError", "disk"), Trouble::Unknown("disk".into()));
    }

    #[test]
    fn a_newer_store_and_one_that_is_held_are_told_apart() {
        assert_eq!(Trouble::named("VersionError", ""), Trouble::Newer);
        assert_eq!(Trouble::named(BLOCKED, ""), Trouble::Blocked);
    }
}
