//! A small reader of the PDF files under test: pages, and what is drawn on them, in millimetres
//! from the upper left corner.

use flate2::read::ZlibDecoder;
use std::io::Read;

/// A straight line.
#[derive(Debug, Clone, Copy)]
pub struct Line {
    pub from: (f64, f64),
    pub to: (f64, f64),
}

/// A filled rectangle: left, top, right, bottom.
#[derive(Debug, Clone, Copy)]
pub struct Filled {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

/// A run of glyphs: where its base begins, and its size in millimetres.
#[derive(Debug, Clone, Copy)]
pub struct Text {
    pub left: f64,
    pub base: f64,
    pub size: f64,
}

/// One page.
#[derive(Debug, Default)]
pub struct Page {
    pub width: f64,
    pub height: f64,
    pub lines: Vec<Line>,
    pub filled: Vec<Filled>,
    pub texts: Vec<Text>,
    /// Operators that set a colour, with their numbers.
    pub colours: Vec<String>,
}

const MM: f64 = 25.4 / 72.0;

/// Reads all pages in order.
pub fn pages(pdf: &[u8]) -> Vec<Page> {
    let mut pages = Vec::new();
    for (_, body) in objects(pdf) {
        let head = String::from_utf8_lossy(&body[..body.len().min(4000)]).into_owned();
        if !head.contains("/Type/Page") && !head.contains("/Type /Page") {
            continue;
        }
        if head.contains("/Pages") && head.contains("/Kids") {
            continue;
        }
        let box_text = between(&head, "/MediaBox", ']');
        let size: Vec<f64> = numbers(&box_text);
        let content = between(&head, "/Contents", 'R');
        let id = numbers(&content)[0] as usize;
        let stream = stream_of(pdf, id);
        pages.push(read_page(&stream, size[2], size[3]));
    }
    pages
}

fn between(text: &str, after: &str, until: char) -> String {
    let start = text.find(after).unwrap_or_else(|| panic!("no {after}")) + after.len();
    text[start..].split(until).next().unwrap().to_owned()
}

fn numbers(text: &str) -> Vec<f64> {
    text.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter_map(|word| word.parse().ok())
        .collect()
}

/// Number and bytes of each object.
fn objects(pdf: &[u8]) -> Vec<(usize, &[u8])> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = find(&pdf[at..], b" 0 obj").map(|place| place + at) {
        let digits = pdf[..start]
            .iter()
            .rev()
            .take_while(|byte| byte.is_ascii_digit())
            .count();
        let id = std::str::from_utf8(&pdf[start - digits..start])
            .unwrap()
            .parse()
            .unwrap();
        let end = find(&pdf[start..], b"endobj").map_or(pdf.len(), |place| place + start);
        found.push((id, &pdf[start + 6..end]));
        at = end;
    }
    found
}

fn stream_of(pdf: &[u8], id: usize) -> String {
    let (_, body) = objects(pdf)
        .into_iter()
        .find(|(number, _)| *number == id)
        .expect("the content is an object");
    let start = find(body, b"stream").unwrap() + 6;
    let start = start + usize::from(body[start] == b'\r') + 1;
    let end = find(body, b"endstream").unwrap();
    let head = String::from_utf8_lossy(&body[..start]).into_owned();
    let raw = &body[start..end];
    if !head.contains("FlateDecode") {
        return String::from_utf8_lossy(raw).into_owned();
    }
    let mut text = Vec::new();
    ZlibDecoder::new(raw).read_to_end(&mut text).unwrap();
    String::from_utf8_lossy(&text).into_owned()
}

fn find(bytes: &[u8], wanted: &[u8]) -> Option<usize> {
    bytes
        .windows(wanted.len())
        .position(|window| window == wanted)
}

type Matrix = [f64; 6];

fn times(a: Matrix, b: Matrix) -> Matrix {
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

fn read_page(stream: &str, width: f64, height: f64) -> Page {
    let mut page = Page {
        width: width * MM,
        height: height * MM,
        ..Page::default()
    };
    let mut matrix: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
    let mut kept = Vec::new();
    let mut text: Matrix = matrix;
    let mut size = 0.0;
    let mut path: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut stack: Vec<String> = Vec::new();
    let spaced = stream
        .replace('[', " [ ")
        .replace(']', " ] ")
        .replace('<', " <");
    for word in spaced.split_whitespace() {
        let args: Vec<f64> = stack.iter().filter_map(|word| word.parse().ok()).collect();
        let place = |matrix: Matrix, x: f64, y: f64| {
            let [a, b, c, d, e, f] = matrix;
            (
                (a * x + c * y + e) * MM,
                (height - (b * x + d * y + f)) * MM,
            )
        };
        match word {
            "q" => kept.push(matrix),
            "Q" => matrix = kept.pop().expect("q before Q"),
            "cm" => matrix = times(args[..6].try_into().unwrap(), matrix),
            "m" => path.push(vec![place(matrix, args[0], args[1])]),
            "l" => path
                .last_mut()
                .expect("m before l")
                .push(place(matrix, args[0], args[1])),
            "re" => {
                let (x, y, w, h) = (args[0], args[1], args[2], args[3]);
                path.push(vec![
                    place(matrix, x, y),
                    place(matrix, x + w, y),
                    place(matrix, x + w, y + h),
                    place(matrix, x, y + h),
                ]);
            }
            "S" => {
                for piece in path.drain(..) {
                    for pair in piece.windows(2) {
                        page.lines.push(Line {
                            from: pair[0],
                            to: pair[1],
                        });
                    }
                }
            }
            "f" => {
                for piece in path.drain(..) {
                    let xs = piece.iter().map(|place| place.0);
                    let ys = piece.iter().map(|place| place.1);
                    page.filled.push(Filled {
                        left: xs.clone().fold(f64::INFINITY, f64::min),
                        right: xs.fold(f64::NEG_INFINITY, f64::max),
                        top: ys.clone().fold(f64::INFINITY, f64::min),
                        bottom: ys.fold(f64::NEG_INFINITY, f64::max),
                    });
                }
            }
            "n" => path.clear(),
            "BT" => text = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
            "Tf" => size = args[args.len() - 1],
            "Tm" => text = args[..6].try_into().unwrap(),
            "Tj" | "TJ" => {
                let whole = times(text, matrix);
                let (left, base) = place(whole, 0.0, 0.0);
                page.texts.push(Text {
                    left,
                    base,
                    size: size * (whole[2].powi(2) + whole[3].powi(2)).sqrt() * MM,
                });
            }
            "g" | "G" | "rg" | "RG" | "k" | "K" | "sc" | "SC" | "scn" | "SCN" => {
                page.colours.push(format!("{} {word}", stack.join(" ")));
            }
            _ => {
                let operator = word.chars().next().is_some_and(char::is_alphabetic);
                if !operator {
                    stack.push(word.to_owned());
                    continue;
                }
            }
        }
        stack.clear();
    }
    page
}
