//! Which answers does a question have that is typed in or corrected by hand? The range and its words.

use counterpoise_core::record::Question;

/// The range of an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Scale {
    /// The least answer.
    pub least: u8,
    /// The greatest answer.
    pub most: u8,
    /// The meaning of the numbers; empty for a yes-or-no question.
    pub words: String,
}

/// The scale of a question; `None` if its answer cannot be typed in or corrected: the answers about body and room before a
/// practice stay as they are.
pub(super) fn scale(question: Question) -> Option<Scale> {
    let words = match question {
        Question::Grabbed | Question::Unwell | Question::Hurt => String::new(),
        Question::Fell
        | Question::FallHurt
        | Question::Head
        | Question::FellThen
        | Question::UnwellThen
        | Question::SameFall => "0 no, 1 yes, 2 not sure, which counts as yes".to_owned(),
        Question::ClinicianFirst
        | Question::NoClinician
        | Question::Ready
        | Question::InPlace
        | Question::PartnerReady
        | Question::SoundCheck => return None,
        _ => question.numbered_words().join(", "),
    };
    let (least, most) = question.limits();
    Some(Scale { least, most, words })
}

impl Scale {
    /// Whether the answer is yes or no.
    pub(crate) fn is_yes_or_no(&self) -> bool {
        self.words.is_empty()
    }
}

#[cfg(test)]
mod test {
    use super::scale;
    use counterpoise_core::record::Question;

    #[test]
    fn the_words_of_every_scale_name_its_ends() {
        for question in Question::ALL {
            let Some(scale) = scale(*question) else { continue };
            assert!(scale.least < scale.most, "{question}");
            let ends = [scale.least, scale.most].map(|one| scale.words.contains(&one.to_string()));
            assert!(scale.is_yes_or_no() || ends == [true, true], "{question}");
        }
    }
}
