//! Words, settings of this device, and where the person was.

asked! {
    /// Which language's catalogue.
    pub struct CatalogueAsk {
        /// A locale such as `en`; absent: the one of the settings.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub locale: Option<String>,
    }

    /// Where the person is, as the UI names it.
    pub struct Place {
        /// The UI's own address of a screen; absent: the start.
        #[serde(default)]
        #[ts(optional = nullable)]
        pub hash: Option<String>,
    }

    /// Settings of this device alone.
    pub struct Settings {
        /// Colours.
        pub theme: Theme,
        /// The side the pad docks to.
        pub hand: Hand,
        /// Larger keys.
        pub gloves: bool,
        /// Language, for example `en`.
        pub locale: String,
    }
}

choice! {
    /// Colours.
    pub enum Theme {
        /// As the system says.
        System,
        /// Dark on light.
        Light,
        /// Light on dark.
        Dark,
        /// Pure black on white, heavier.
        Sun,
    }

    /// Which hand holds the device.
    pub enum Hand {
        /// Left.
        Left,
        /// Right.
        Right,
    }
}

told! {
    /// The whole catalogue of a language, as Fluent source.
    pub struct CatalogueView {
        /// The locale it is for.
        pub locale: String,
        /// Fluent source.
        pub ftl: String,
    }

    /// Settings, and the languages there are.
    pub struct SettingsView {
        /// The settings.
        pub settings: Settings,
        /// Languages there are.
        pub locales: Vec<super::Choice>,
    }
}
