//! Why a window could not be driven.

/// What stopped a check before it could say anything about the product, or what it waited for in vain.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// A program could not be started, or a file not be read or written.
    #[error("{what}: {error}")]
    System {
        /// The program or file.
        what: String,
        /// What the system says.
        error: std::io::Error,
    },
    /// The window's driver refused something.
    #[error("the window's driver says: {0}")]
    Driver(#[from] thirtyfour::error::WebDriverError),
    /// The window shows something else than it should.
    #[error("{0}")]
    NotShown(String),
}

impl Trouble {
    pub(crate) fn system(what: impl Into<String>) -> impl FnOnce(std::io::Error) -> Self {
        let what = what.into();
        move |error| Self::System { what, error }
    }
}
