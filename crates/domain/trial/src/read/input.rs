//! A file as a stream whose pieces are bounded: no line and no tag may fill the memory.

use std::io::{self, BufRead, Read};

/// Bytes of one line; a sentence has 82, a row of a table a few hundred.
const LINE: usize = 4096;
/// Bytes of one tag, text or row before the file counts as broken there.
pub(crate) const PIECE: usize = 1 << 16;

/// Counts lines, and ends the file where a piece grows beyond all measure.
pub(crate) struct Input<'a> {
    inner: &'a mut dyn BufRead,
    /// Line feeds passed.
    pub(crate) lines: u64,
    /// Bytes that the piece being read may still have; none without a bound.
    room: Option<usize>,
    /// What was taken from the file and not yet given on, from here.
    own: Vec<u8>,
    at: usize,
    /// Whether letters beyond ASCII give way to question marks.
    masked: bool,
}

/// What a line is.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Line {
    Whole,
    /// Longer than any; only its start was kept.
    Long,
    /// The last one, without an end.
    Open,
}

impl<'a> Input<'a> {
    pub(crate) fn new(inner: &'a mut dyn BufRead) -> Self {
        Self {
            inner,
            lines: 0,
            room: None,
            own: Vec::new(),
            at: 0,
            masked: false,
        }
    }

    /// For readers that take UTF-8 only: unless the beginning shows letters in UTF-8, all letters beyond
    /// ASCII are masked, so that a name in an old alphabet does not end the reading.
    pub(crate) fn mask(mut self, head: &[u8]) -> Self {
        let shown = match std::str::from_utf8(head) {
            Ok(text) => !text.is_ascii(),
            // A letter may be cut at the end of the beginning.
            Err(e) => e.error_len().is_none() && !head[..e.valid_up_to()].is_ascii(),
        };
        self.masked = !shown;
        self
    }

    /// A new piece begins.
    pub(crate) fn piece(&mut self) {
        self.room = Some(PIECE);
    }

    /// Whether the piece took all the room it may.
    pub(crate) fn spent(&self) -> bool {
        self.room == Some(0)
    }

    /// Passes what is left of a line.
    pub(crate) fn skip_line(&mut self) -> io::Result<()> {
        loop {
            self.piece();
            let some = self.fill_buf()?;
            let end = memchr::memchr(b'\n', some);
            let count = end.map_or(some.len(), |end| end + 1);
            let last = end.is_some() || some.is_empty();
            self.consume(count);
            if last {
                return Ok(());
            }
        }
    }

    /// The next line without its end, and what it is; none at the end of the file.
    pub(crate) fn line(&mut self, line: &mut Vec<u8>) -> io::Result<Option<Line>> {
        line.clear();
        let mut kind = Line::Whole;
        loop {
            let some = match self.inner.fill_buf() {
                Ok(some) => some,
                Err(e) if e.kind() == io::ErrorKind::Interrupted => continue,
                Err(e) => return Err(e),
            };
            if some.is_empty() {
                let open = if kind == Line::Whole {
                    Line::Open
                } else {
                    kind
                };
                return Ok((!line.is_empty()).then_some(open));
            }
            let end = memchr::memchr(b'\n', some);
            let taken = end.unwrap_or(some.len());
            let room = LINE.saturating_sub(line.len());
            line.extend_from_slice(&some[..taken.min(room)]);
            if taken > room {
                kind = Line::Long;
            }
            self.inner.consume(end.map_or(taken, |end| end + 1));
            if end.is_some() {
                self.lines += 1;
                if line.last() == Some(&b'\r') {
                    line.pop();
                }
                return Ok(Some(kind));
            }
        }
    }
}

impl Read for Input<'_> {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        let some = self.fill_buf()?;
        let count = some.len().min(to.len());
        to[..count].copy_from_slice(&some[..count]);
        self.consume(count);
        Ok(count)
    }
}

impl BufRead for Input<'_> {
    fn fill_buf(&mut self) -> io::Result<&[u8]> {
        if self.room == Some(0) {
            return Ok(&[]);
        }
        if self.at == self.own.len() {
            self.own.clear();
            self.at = 0;
            let some = self.inner.fill_buf()?;
            self.own.extend_from_slice(some);
            let count = some.len();
            self.inner.consume(count);
            if self.masked && !self.own.is_ascii() {
                for byte in self.own.iter_mut().filter(|byte| !byte.is_ascii()) {
                    *byte = b'?';
                }
            }
        }
        let some = &self.own[self.at..];
        Ok(&some[..self.room.map_or(some.len(), |room| room.min(some.len()))])
    }

    fn consume(&mut self, count: usize) {
        let end = (self.at + count).min(self.own.len());
        let ends = memchr::memchr_iter(b'\n', &self.own[self.at..end]).count();
        self.lines += u64::try_from(ends).unwrap_or(u64::MAX);
        if let Some(room) = &mut self.room {
            *room = room.saturating_sub(count);
        }
        self.at = end;
    }
}
