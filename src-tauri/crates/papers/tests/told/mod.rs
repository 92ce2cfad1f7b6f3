//! What other programs read in a PDF: `pdftotext`, `pdffonts`, `pdfinfo` and `pdfdetach` of Debian's poppler-utils.
#![allow(dead_code, unreachable_pub, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::process::Command;

/// What a tool says of a PDF: `{}` among its arguments stands for the file.
pub fn told(tool: &str, args: &[&str], pdf: &[u8]) -> String {
    let file = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(file.path(), pdf).unwrap();
    let args = args.iter().map(|arg| if *arg == "{}" { file.path().as_os_str() } else { arg.as_ref() });
    let output = Command::new(tool).args(args).output().unwrap_or_else(|e| panic!("{tool} (poppler-utils): {e}"));
    assert!(output.status.success(), "{tool}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// The text of a PDF as it stands on its pages, each ended by a form feed.
pub fn text_of(pdf: &[u8]) -> String {
    told("pdftotext", &["-layout", "{}", "-"], pdf)
}

/// White space made one space, whatever its kind.
pub fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
