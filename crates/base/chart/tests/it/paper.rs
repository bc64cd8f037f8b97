//! Where things lie on the paper of a picture.

/// The words of a picture: where they stand, how they are anchored, what they say.
pub(crate) struct Words {
    pub(crate) x: f64,
    pub(crate) y: f64,
    pub(crate) class: String,
    pub(crate) said: String,
}

impl Words {
    /// From where to where, were every letter this wide.
    pub(crate) fn along(&self, letter: f64) -> (f64, f64) {
        let count = u32::try_from(self.said.chars().count()).unwrap();
        let long = letter * f64::from(count);
        match () {
            () if self.class.contains("middle") => (self.x - long / 2.0, self.x + long / 2.0),
            () if self.class.contains(" end") => (self.x - long, self.x),
            () => (self.x, self.x + long),
        }
    }
}

pub(crate) fn words(svg: &str) -> Vec<Words> {
    let texts = svg.split("<text ").skip(1);
    let text = |text: &str| {
        let (head, rest) = text.split_once('>').unwrap();
        let inside = rest.split("</text>").next().unwrap();
        // Tags out, words left.
        let said = inside
            .split('<')
            .map(|part| part.split_once('>').map_or(part, |p| p.1));
        Words {
            x: attribute(head, "x").unwrap(),
            y: attribute(head, "y").unwrap(),
            class: head.split('"').nth(1).unwrap().to_owned(),
            said: said.collect(),
        }
    };
    texts.map(text).collect()
}

fn attribute(tag: &str, name: &str) -> Option<f64> {
    let key = format!("{name}=\"");
    let at = tag.find(&format!(" {key}")).map(|at| at + 1);
    let at = at.or_else(|| tag.starts_with(&key).then_some(0))?;
    tag[at + key.len()..].split('"').next()?.parse().ok()
}

/// The strokes of all paths of a class, each as its points.
pub(crate) fn strokes(svg: &str, class: &str) -> Vec<Vec<(f64, f64)>> {
    let head = format!("<path class=\"{class}\" d=\"");
    let paths = svg
        .split(&head)
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap());
    paths.flat_map(pieces).collect()
}

fn pieces(d: &str) -> Vec<Vec<(f64, f64)>> {
    let point = |point: &str| {
        let (x, y) = point.trim_end_matches('Z').split_once(' ')?;
        Some((x.parse().ok()?, y.parse().ok()?))
    };
    let piece = |piece: &str| piece.split('L').filter_map(point).collect();
    d.split('M').skip(1).map(piece).collect()
}

/// The middles of all circles.
pub(crate) fn circles(svg: &str) -> Vec<(f64, f64)> {
    let tags = svg.split("<circle ").skip(1);
    let tags = tags.map(|tag| tag.split('>').next().unwrap());
    let middle = |tag| Some((attribute(tag, "cx")?, attribute(tag, "cy")?));
    tags.filter_map(middle).collect()
}

/// Every point, rectangle, circle and the foot of every word lies on the paper, and nothing is no number.
pub(crate) fn assert_on_paper(svg: &str) {
    let box_ = svg
        .split("viewBox=\"0 0 ")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap();
    let (width, height) = box_.split_once(' ').unwrap();
    let (width, height): (f64, f64) = (width.parse().unwrap(), height.parse().unwrap());
    let drawn = svg.split("</desc>").nth(1).unwrap();
    assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "{svg}");
    let ds = drawn
        .split(" d=\"")
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap());
    let mut points: Vec<(f64, f64)> = ds.flat_map(pieces).flatten().collect();
    points.extend(circles(drawn));
    points.extend(words(drawn).iter().map(|words| (words.x, words.y)));
    for tag in drawn.split("<rect ").skip(1) {
        let at = |name| attribute(tag, name).unwrap();
        points.push((at("x"), at("y")));
        points.push((at("x") + at("width"), at("y") + at("height")));
        assert!(at("width") >= 0.0 && at("height") >= 0.0);
    }
    for (x, y) in points {
        assert!((0.0..=width).contains(&x), "{x} of {width}: {svg}");
        assert!((0.0..=height).contains(&y), "{y} of {height}: {svg}");
    }
    // The mean letter of a broad font at 13 pixels is 8 wide.
    for words in words(drawn) {
        let (from, to) = words.along(6.0);
        assert!(from >= 0.0 && to <= width, "{}: {from} to {to}", words.said);
    }
}

/// No two words of this class lie on each other.
pub(crate) fn assert_apart(svg: &str, class: &str) {
    let words = words(svg);
    let words: Vec<&Words> = words.iter().filter(|words| words.class == class).collect();
    for (place, one) in words.iter().enumerate() {
        for other in &words[place + 1..] {
            let ((from, to), (begin, end)) = (one.along(6.5), other.along(6.5));
            let apart = to <= begin || end <= from || (one.y - other.y).abs() >= 12.0;
            assert!(apart, "{} on {}", one.said, other.said);
        }
    }
}

/// One element a line, so that a change can be read.
pub(crate) fn lines(svg: &str) -> String {
    svg.replace("><", ">\n<")
}
