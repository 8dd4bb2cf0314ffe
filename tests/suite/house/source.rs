//! Rust text for a reader that wants only the code: comments, the contents of
//! strings and everything under `#[cfg(test)]` are blanked. Lines and offsets
//! stay as they were, so that a finding can be pointed at.

/// One source file, taken apart.
pub struct Source {
    /// The code, as long as the file: what is no code is blank.
    pub code: String,
    /// The strings in it, outside tests.
    pub literals: Vec<Literal>,
}

/// A string in the code.
pub struct Literal {
    /// Where its opening quote stands.
    pub at: usize,
    /// What stands between the quotes, escapes as typed.
    pub text: String,
}

impl Source {
    /// Takes `text` apart.
    pub fn read(text: &str) -> Self {
        let mut reader = Reader {
            bytes: text.as_bytes(),
            at: 0,
            code: Vec::with_capacity(text.len()),
            literals: Vec::new(),
        };
        reader.run();
        let mut code = reader.code;
        let tests = blank_tests(&mut code);
        let literals = reader
            .literals
            .into_iter()
            .filter(|(start, _)| !tests.iter().any(|(from, to)| (*from..*to).contains(start)))
            .map(|(start, end)| Literal {
                at: start,
                text: text.get(start + 1..end).unwrap_or_default().to_owned(),
            })
            .collect();
        Self {
            code: String::from_utf8_lossy(&code).into_owned(),
            literals,
        }
    }

    /// The line, from 1, of an offset.
    pub fn line(&self, at: usize) -> usize {
        1 + self.code.bytes().take(at).filter(|byte| *byte == b'\n').count()
    }
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
    code: Vec<u8>,
    /// Opening and closing quote.
    literals: Vec<(usize, usize)>,
}

impl Reader<'_> {
    fn run(&mut self) {
        while let Some(byte) = self.peek(0) {
            match (byte, self.peek(1)) {
                (b'/', Some(b'/')) => self.blank_while(|reader| reader.peek(0) != Some(b'\n')),
                (b'/', Some(b'*')) => self.block_comment(),
                (b'"', _) => self.string(),
                (b'\'', _) => self.letter_or_lifetime(),
                (b'r', Some(b'"' | b'#')) if !self.inside_word() => self.raw_string(),
                // Of `b"`, `c"`, `br"` the prefix is code and the rest a string.
                (b'b' | b'c', Some(b'r')) if !self.inside_word() && matches!(self.peek(2), Some(b'"' | b'#')) => {
                    self.keep();
                    self.raw_string();
                }
                _ => self.keep(),
            }
        }
    }

    fn peek(&self, ahead: usize) -> Option<u8> {
        self.bytes.get(self.at + ahead).copied()
    }

    fn inside_word(&self) -> bool {
        let before = self.at.checked_sub(1).and_then(|at| self.bytes.get(at));
        before.is_some_and(|byte| byte.is_ascii_alphanumeric() || *byte == b'_')
    }

    fn keep(&mut self) {
        self.code.extend(self.bytes.get(self.at));
        self.at += 1;
    }

    /// Blanks letters, never line ends. A byte gives a byte, whatever it was
    /// part of, so offsets hold.
    fn blank(&mut self) {
        if let Some(byte) = self.peek(0) {
            self.code.push(if byte == b'\n' { b'\n' } else { b' ' });
        }
        self.at += 1;
    }

    fn blank_while(&mut self, goes_on: impl Fn(&Self) -> bool) {
        while self.peek(0).is_some() && goes_on(self) {
            self.blank();
        }
    }

    fn block_comment(&mut self) {
        let mut depth = 0;
        loop {
            match (self.peek(0), self.peek(1)) {
                (None, _) => return,
                (Some(b'/'), Some(b'*')) => (depth, _) = (depth + 1, self.blank()),
                (Some(b'*'), Some(b'/')) => (depth, _) = (depth - 1, self.blank()),
                _ => {}
            }
            self.blank();
            if depth == 0 {
                return;
            }
        }
    }

    fn string(&mut self) {
        let start = self.at;
        self.keep();
        while let Some(byte) = self.peek(0) {
            match byte {
                b'\\' => {
                    self.blank();
                    self.blank();
                }
                b'"' => break,
                _ => self.blank(),
            }
        }
        self.literals.push((start, self.at));
        self.keep();
    }

    /// `r"..."`, `r#"..."#`; or `r#type`, which is a name.
    fn raw_string(&mut self) {
        let hashes = self
            .bytes
            .iter()
            .skip(self.at + 1)
            .take_while(|byte| **byte == b'#')
            .count();
        if self.peek(1 + hashes) != Some(b'"') {
            self.keep();
            return;
        }
        for _ in 0..=hashes {
            self.blank();
        }
        let start = self.at;
        self.keep();
        self.blank_while(|reader| {
            reader.peek(0) != Some(b'"') || (1..=hashes).any(|ahead| reader.peek(ahead) != Some(b'#'))
        });
        self.literals.push((start, self.at));
        self.keep();
        for _ in 0..hashes {
            self.blank();
        }
    }

    fn letter_or_lifetime(&mut self) {
        let escaped = self.peek(1) == Some(b'\\');
        let width = self.peek(1).map_or(1, |byte| match byte {
            0xF0.. => 4,
            0xE0.. => 3,
            0xC0.. => 2,
            _ => 1,
        });
        if !escaped && self.peek(1 + width) != Some(b'\'') {
            return self.keep();
        }
        self.keep();
        self.blank();
        // After `'\` comes at least one more letter, which may be a quote.
        self.blank();
        self.blank_while(|reader| {
            !escaped && width > 1 && reader.peek(0) != Some(b'\'') || escaped && reader.peek(0) != Some(b'\'')
        });
        if escaped || width > 1 {
            self.keep();
        }
    }
}

/// Blanks each item under `#[cfg(test)]`; gives where they stood.
fn blank_tests(code: &mut [u8]) -> Vec<(usize, usize)> {
    const MARK: &[u8] = b"#[cfg(test)]";
    let mut blanked = Vec::new();
    let mut from = 0;
    while let Some(found) = code
        .get(from..)
        .and_then(|rest| rest.windows(MARK.len()).position(|part| part == MARK))
    {
        let start = from + found;
        let end = end_of_item(code, start + MARK.len());
        for byte in &mut code[start..end] {
            if *byte != b'\n' {
                *byte = b' ';
            }
        }
        blanked.push((start, end));
        from = end;
    }
    blanked
}

/// An item ends at its `;`, a field or an arm at its comma, and either where
/// its outer braces close.
fn end_of_item(code: &[u8], start: usize) -> usize {
    let (mut braces, mut others) = (0_usize, 0_usize);
    for (at, byte) in code.iter().enumerate().skip(start) {
        let arrow = matches!(code[at - 1], b'-' | b'=');
        match byte {
            b'{' => braces += 1,
            // What encloses the item is not its own.
            b'}' if braces == 0 => return at,
            b')' | b']' if braces == 0 && others == 0 => return at,
            // `use a::{b};` has its `;` after the brace.
            b'}' if braces == 1 => return at + 1 + usize::from(code.get(at + 1) == Some(&b';')),
            b'}' => braces -= 1,
            b'(' | b'[' | b'<' if braces == 0 => others += 1,
            b'>' if arrow => {}
            b')' | b']' | b'>' if braces == 0 => others = others.saturating_sub(1),
            b';' | b',' if braces == 0 && others == 0 => return at + 1,
            _ => {}
        }
    }
    code.len()
}

#[test]
fn comments_strings_and_tests_are_no_code() {
    let text = "let a = \"std::fs\"; // std::io\n/* std::env /* nested */ std::net */ let b = 'x';\n\
                let c = r#\"tokio \" tokio\"#; fn f<'a>(x: &'a str) { g('\\'', '\"', 'é', '\\u{1F6BF}'); }\n\
                #[cfg(test)]\nmod tests {\n    fn t() { sqlx::query(\"secret\"); }\n}\nlet d = br\"sqlx\"; r#type";
    let source = Source::read(text);
    for gone in ["std", "tokio", "sqlx", "nested", "mod tests", "secret"] {
        assert!(!source.code.contains(gone), "{gone} in {}", source.code);
    }
    for kept in ["let b =", "fn f<'a>(x: &'a str) { g(", "); }", "let d =", "r#type"] {
        assert!(source.code.contains(kept), "{kept} not in {}", source.code);
    }
    assert_eq!(source.code.len(), text.len());
    assert_eq!(source.code.matches('\n').count(), text.matches('\n').count());
    let texts: Vec<_> = source.literals.iter().map(|literal| literal.text.as_str()).collect();
    assert_eq!(texts, ["std::fs", "tokio \" tokio", "sqlx"]);
    assert_eq!(source.line(source.code.find("let d").unwrap_or_default()), 8);
}

#[test]
fn of_a_test_only_field_or_arm_only_that_is_blanked() {
    let text = "struct A { #[cfg(test)] gone: Map<B, fn(C) -> D>, kept: E }\n\
                fn f() { match g { #[cfg(test)] Gone => 1, Kept => 2, #[cfg(test)] Gone }; }\n\
                #[cfg(test)] use gone::{a, b}; #[cfg(test)] fn gone<T, U>(t: [u8; 2]) -> V { gone } use kept;";
    let code = Source::read(text).code;
    let kept: Vec<_> = code.split_whitespace().collect();
    assert_eq!(
        kept.join(" "),
        "struct A { kept: E } fn f() { match g { Kept => 2, }; } use kept;"
    );
}
