//! A word of a command that is printed to be typed, as a shell takes it.

/// Signs that no shell here takes for its own.
const PLAIN: &str = "/._-+:";

/// A text as one word: as it is where nothing in it means something to a shell, else in quotes.
pub(super) fn word(text: &str) -> String {
    if cfg!(windows) { for_windows(text) } else { for_unix(text) }
}

fn for_unix(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || PLAIN.contains(c) || "=,@".contains(c);
    if is_plain(text, plain) { text.to_owned() } else { format!("'{}'", text.replace('\'', r"'\''")) }
}

/// In double quotes: the old shell of Windows takes no others, the newer one takes both. Backslashes count for themselves but
/// before a quote, where each has to stand twice.
fn for_windows(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || PLAIN.contains(c) || "\\~".contains(c);
    if is_plain(text, plain) {
        return text.to_owned();
    }
    let (mut quoted, mut backslashes) = (String::from('"'), 0);
    for c in text.chars() {
        if c == '"' {
            quoted.push_str(&"\\".repeat(backslashes + 1));
        }
        backslashes = if c == '\\' { backslashes + 1 } else { 0 };
        quoted.push(c);
    }
    quoted + &"\\".repeat(backslashes) + "\""
}

fn is_plain(text: &str, plain: impl Fn(char) -> bool) -> bool {
    !text.is_empty() && text.chars().all(plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_needs_no_quotes_gets_none() {
        for text in ["/media/ml/BENCH", "season-2.db", "service=office", "jardinería,2@x"] {
            assert_eq!(for_unix(text), text);
        }
        for text in [r"E:\BENCH", r"\\server\share", r"C:\Users\KT\AppData\Local\Temp\PROGRA~1", "season-2.db"] {
            assert_eq!(for_windows(text), text);
        }
    }

    #[test]
    fn what_a_shell_would_read_is_quoted() {
        for (text, wanted) in [
            ("", "''"),
            ("/my stick", "'/my stick'"),
            ("~/b", "'~/b'"),
            ("a$b", "'a$b'"),
            (r"E:\b", r"'E:\b'"),
            ("kt's", r"'kt'\''s'"),
        ] {
            assert_eq!(for_unix(text), wanted);
        }
        for (text, wanted) in [
            ("", r#""""#),
            (r"E:\my stick", r#""E:\my stick""#),
            (r"E:\my stick\", r#""E:\my stick\\""#),
            ("kt's", r#""kt's""#),
            ("a,b", r#""a,b""#),
            ("service=office", r#""service=office""#),
            (r#"password=\"x\\"#, r#""password=\\\"x\\\\""#),
        ] {
            assert_eq!(for_windows(text), wanted);
        }
    }

    #[test]
    fn the_shell_is_that_of_the_system() {
        assert_eq!(word("a b"), if cfg!(windows) { "\"a b\"" } else { "'a b'" });
    }
}
