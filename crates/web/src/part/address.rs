//! Addresses with a question part, its words percent-encoded.

use std::fmt::Write as _;

/// An address that asks: "/process?food=plums&elevation=305%20m". Without fields it is the page.
pub fn asking(page: &str, fields: &[(String, String)]) -> String {
    let mut out = page.to_owned();
    for (index, (field, word)) in fields.iter().enumerate() {
        out.push(if index == 0 { '?' } else { '&' });
        encode(&mut out, field);
        out.push('=');
        encode(&mut out, word);
    }
    out
}

fn encode(out: &mut String, text: &str) {
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            // Writing to a text cannot fail.
            let _ = write!(out, "%{byte:02X}");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::asking;

    #[test]
    fn words_with_spaces_and_signs_arrive_whole() {
        let fields = [
            ("food", "plums"),
            ("elevation", "950 ft ± 60"),
            ("canner", "a&b=c"),
        ]
        .map(|(field, word)| (field.to_owned(), word.to_owned()));
        assert_eq!(
            asking("/process", &fields),
            "/process?food=plums&elevation=950%20ft%20%C2%B1%2060&canner=a%26b%3Dc"
        );
        assert_eq!(asking("/process", &[]), "/process");
    }
}
