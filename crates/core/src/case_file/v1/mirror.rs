//! Stored twins of the domain's enums, so that renaming one in the domain changes no file.

/// A stored enum with the variants of a domain enum, and the way from each to the other.
macro_rules! mirror {
    ($(#[$doc:meta])* $stored:ident = $domain:path { $($(#[$attribute:meta])* $variant:ident),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, serde::Serialize, serde::Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub(super) enum $stored {
            $($(#[$attribute])* $variant,)*
        }

        impl From<$domain> for $stored {
            fn from(domain: $domain) -> Self {
                use $domain as Domain;
                match domain {
                    $(Domain::$variant => Self::$variant,)*
                }
            }
        }

        impl From<$stored> for $domain {
            fn from(stored: $stored) -> Self {
                match stored {
                    $($stored::$variant => Self::$variant,)*
                }
            }
        }
    };
}

pub(super) use mirror;
