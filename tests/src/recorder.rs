//! Recording on the Run screen, by the keypad's keys or by a keyboard's.
use serde_json::Value;

use crate::{Trouble, Window};

/// A reading as a recorder enters it.
#[derive(Debug, Clone, Copy)]
pub enum Entry {
    /// The one-tap key for an over-range indication.
    OverRange,
    /// Digits, then the unit key.
    Typed {
        /// As the tester shows them.
        digits: &'static str,
        /// `k`, `m` or `g`.
        unit: char,
    },
}

impl Entry {
    /// Taps on the keypad that it takes: one for each character, one for the unit, one for over-range.
    pub fn taps(self) -> usize {
        match self {
            Self::OverRange => 1,
            Self::Typed { digits, .. } => digits.len() + 1,
        }
    }
}

/// Counts taps, and saves: after each the saving keys rest, or the keypad makes room for something else.
const WATCH: &str = "
    if (window.saves !== undefined) return;
    window.taps = 0;
    window.saves = 0;
    addEventListener('pointerup', () => window.taps++, true);
    const rests = () => document.getElementById('key-m')?.getAttribute('aria-disabled') !== null;
    let rested = rests();
    new MutationObserver(() => {
        if (rests() && !rested) window.saves++;
        rested = rests();
    }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['aria-disabled'] });";

/// A key that is there and would save.
const READY: &str = "const key = document.getElementById(arguments[0]); return key !== null && key.getAttribute('aria-disabled') !== 'true'";

impl Window {
    /// Goes to the run of a board.
    pub async fn run(&self, board: &str) -> Result<(), Trouble> {
        self.go(&format!("#/run/{board}")).await?;
        self.recording().await
    }

    /// Waits until the Run screen takes readings, or asks for the test voltage.
    pub async fn recording(&self) -> Result<(), Trouble> {
        let script = "return ['key-m', 'key-volts'].some((id) => document.getElementById(id) !== null)";
        self.until("the keypad", script, &[]).await?;
        self.ask(WATCH, &[]).await?;
        Ok(())
    }

    /// Says that the tester is set to the voltage asked for, if it is asked for.
    pub async fn set_voltage_if_asked(&self) -> Result<(), Trouble> {
        if self.ask("return document.getElementById('key-volts') !== null", &[]).await? == Value::Bool(true) {
            self.until("the voltage key", READY, &["key-volts".into()]).await?;
            self.tap("key-volts").await?;
            self.until("the keypad", "return document.getElementById('key-m') !== null", &[]).await?;
        }
        Ok(())
    }

    /// Taps one reading in, and waits until it is saved.
    pub async fn tap_in(&self, entry: Entry) -> Result<(), Trouble> {
        self.set_voltage_if_asked().await?;
        match entry {
            Entry::OverRange => self.save_by("key-over").await,
            Entry::Typed { digits, unit } => {
                self.tap_digits(digits).await?;
                self.save_by(&format!("key-{unit}")).await
            }
        }
    }

    /// Taps digits in, and saves nothing.
    pub async fn tap_digits(&self, digits: &str) -> Result<(), Trouble> {
        for digit in digits.chars() {
            let key = if digit == '.' { "key-dot".to_owned() } else { format!("key-{digit}") };
            self.tap(&key).await?;
        }
        Ok(())
    }

    /// Types one reading on the hardware keyboard, and waits until it is saved. Over-range is typed with its sign.
    pub async fn type_in(&self, keys: &str) -> Result<(), Trouble> {
        if self.ask("return document.getElementById('key-volts') !== null", &[]).await? == Value::Bool(true) {
            self.until("the voltage key", READY, &["key-volts".into()]).await?;
            self.type_keys("t").await?;
        }
        self.until("the saving keys", READY, &["key-m".into()]).await?;
        let saves = self.saves().await?;
        self.type_keys(keys).await?;
        self.saved_after(&saves).await
    }

    /// How often the screen was tapped since the run was opened.
    pub async fn taps(&self) -> Result<usize, Trouble> {
        let taps = self.ask("return window.taps", &[]).await?;
        Ok(taps.as_u64().and_then(|taps| taps.try_into().ok()).unwrap_or_default())
    }

    async fn save_by(&self, key: &str) -> Result<(), Trouble> {
        self.until(key, READY, &[key.into()]).await?;
        let saves = self.saves().await?;
        self.tap(key).await?;
        self.saved_after(&saves).await
    }

    async fn saves(&self) -> Result<Value, Trouble> {
        self.ask("return window.saves", &[]).await
    }

    async fn saved_after(&self, saves: &Value) -> Result<(), Trouble> {
        self.until("the reading to be saved", "return window.saves > arguments[0]", std::slice::from_ref(saves)).await
    }
}
