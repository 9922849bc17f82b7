//! What a phone reads off the printed square is the address that was meant.

use crate::page::{Page, pages};
use print::{Area, Code, JarLabel, Label, Laying, SHEETS, labels};

fn label(address: &str) -> Label {
    Label::Jar(JarLabel {
        product: "Peach butter".into(),
        code: "22K-23F".into(),
        address: address.to_owned(),
        ..JarLabel::default()
    })
}

/// What a decoder finds in one label's area of a page, at ten dots a millimetre.
fn read(page: &Page, area: Area) -> Vec<String> {
    let dots = 10.0;
    let (width, height) = ((area.width * dots) as usize, (area.height * dots) as usize);
    let mut black = vec![false; width * height];
    let dot = |place: f64| ((place * dots).round().max(0.0)) as usize;
    for one in &page.filled {
        for y in dot(one.top - area.top)..dot(one.bottom - area.top).min(height) {
            for x in dot(one.left - area.left)..dot(one.right - area.left).min(width) {
                black[y * width + x] = true;
            }
        }
    }
    let mut image =
        rqrr::PreparedImage::prepare_from_bitmap(width, height, |x, y| black[y * width + x]);
    image
        .detect_grids()
        .into_iter()
        .filter_map(|grid| grid.decode().ok())
        .map(|(_, text)| text)
        .collect()
}

#[test]
fn the_square_of_each_label_is_read_back() {
    for sheet in SHEETS {
        let addresses: Vec<String> = (1..=4)
            .map(|number| {
                let code = Code {
                    batch: 7,
                    container: number,
                };
                format!(
                    "http://stillroom.home.arpa:7310/jar/{}",
                    code.to_text().unwrap()
                )
            })
            .collect();
        let all: Vec<Label> = addresses.iter().map(|address| label(address)).collect();
        let laying = Laying::on(sheet.key).unwrap();
        let page = &pages(&labels(&all, &laying, false).unwrap())[0];
        for (nth, address) in addresses.iter().enumerate() {
            assert_eq!(
                read(page, sheet.area(nth)),
                std::slice::from_ref(address),
                "{}",
                sheet.key
            );
        }
    }
}

#[test]
fn the_white_around_a_square_is_kept_free() {
    for sheet in SHEETS {
        let laying = Laying::on(sheet.key).unwrap();
        let all = vec![label("http://stillroom.home.arpa:7310/jar/22K-23F"); sheet.labels()];
        let page = &pages(&labels(&all, &laying, false).unwrap())[0];
        for nth in 0..sheet.labels() {
            let area = sheet.area(nth);
            let dots: Vec<_> = page
                .filled
                .iter()
                .filter(|one| one.left >= area.left && one.right <= area.right())
                .filter(|one| one.top >= area.top && one.bottom <= area.bottom())
                .collect();
            let left = dots
                .iter()
                .map(|one| one.left)
                .fold(f64::INFINITY, f64::min);
            let right = dots.iter().map(|one| one.right).fold(0.0, f64::max);
            let height = dots
                .iter()
                .map(|one| one.bottom - one.top)
                .fold(f64::INFINITY, f64::min);
            assert!(height > 0.33, "{}: dots of {height} mm", sheet.key);
            let white = 4.0 * height - 0.01;
            assert!(area.right() - right >= white.min(2.49), "{}", sheet.key);
            for text in &page.texts {
                let beside =
                    text.base > area.top && text.base < area.bottom() && text.left > area.left;
                assert!(!beside || text.left < left - white || text.left > area.right());
            }
        }
    }
}

#[test]
fn an_address_too_long_for_a_label_is_an_error_that_shows_it() {
    let long = format!("http://stillroom.home.arpa/{}", "x".repeat(120));
    let error = labels(&[label(&long)], &Laying::on("24-a4").unwrap(), false).unwrap_err();
    assert!(error.to_string().contains(&long));
}
