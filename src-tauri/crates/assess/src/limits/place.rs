//! Finding a member of a set in the text it was read from, so that a complaint can name the line.

/// A member of the outermost object of a JSON text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// The key itself.
    Key(&'static str),
    /// One element of the array under the key, from 0.
    Element(&'static str, usize),
}

impl Place {
    /// Line and column from 1, in a text that is valid JSON; the start of the text where it has no such member.
    pub(super) fn in_text(self, text: &str) -> (usize, usize) {
        let before = &text[..self.offset(text).unwrap_or(0)];
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }

    fn offset(self, text: &str) -> Option<usize> {
        let (wanted, element) = match self {
            Self::Key(key) => (key, None),
            Self::Element(key, index) => (key, Some(index)),
        };
        let (mut depth, mut index) = (0_usize, 0_usize);
        let (mut string_start, mut escaped) = (None, false);
        let (mut last_string, mut key) = (0..0, 0..0);
        for (at, byte) in text.bytes().enumerate() {
            if let Some(start) = string_start {
                match byte {
                    _ if escaped => escaped = false,
                    b'\\' => escaped = true,
                    b'"' => (string_start, last_string) = (None, start..at),
                    _ => {}
                }
                continue;
            }
            let in_wanted = depth == 2 && &text[key.clone()] == wanted;
            if in_wanted && Some(index) == element && !byte.is_ascii_whitespace() && byte != b',' {
                return Some(at);
            }
            match byte {
                b'"' => string_start = Some(at + 1),
                b':' if depth == 1 => {
                    key = last_string.clone();
                    if element.is_none() && &text[key.clone()] == wanted {
                        return Some(key.start.saturating_sub(1));
                    }
                    index = 0;
                }
                b'{' | b'[' => depth += 1,
                b'}' | b']' => depth = depth.saturating_sub(1),
                b',' if depth == 2 => index += 1,
                _ => {}
            }
        }
        None
    }
}
