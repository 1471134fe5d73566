use super::*;

fn charts() -> [Chart; 3] {
    let chart =
        |plot| Chart { title: "A < B & \"C\"".into(), words: "So it is.".into(), across: "seconds", plot };
    [
        chart(Plot::Histogram {
            from: 5.0,
            width: 1.0,
            bars_are: "drawn",
            curve_is: "computed",
            bars: vec![(0.2, 0.19), (0.1, 0.11), (0.05, 0.04)],
        }),
        chart(Plot::Lines {
            from: 5.0,
            width: 0.2,
            top: 0.3,
            lines: vec![("one", vec![0.1, 0.2, 1.0]), ("two", vec![0.1, 0.1]), ("three", vec![0.2, 0.3])],
        }),
        chart(Plot::Bars {
            bars: vec![("call 1".into(), 0.25), ("call 2".into(), 0.4)],
            levels: vec![("chance", 0.25)],
        }),
    ]
}

#[test]
fn pictures_carry_their_words_and_nothing_that_runs_or_is_fetched() {
    for (index, chart) in charts().iter().enumerate() {
        let svg = picture(chart, &format!("p{index}"));
        assert!(
            svg.contains(&format!("<title id=\"p{index}-title\">A &lt; B &amp; &quot;C&quot;</title>")),
            "{svg}"
        );
        assert!(svg.contains("<desc id=") && svg.trim_end().ends_with("</svg>"));
        for forbidden in ["<script", "href", "url(", "@import"] {
            assert!(!svg.contains(forbidden), "{forbidden} in {svg}");
        }
        let open = svg.matches("<svg").count() + svg.matches("<text").count();
        let closed = svg.matches("</svg>").count() + svg.matches("</text>").count();
        assert_eq!(open, closed, "{svg}");
    }
}

#[test]
fn every_bar_and_line_is_drawn_and_named() {
    let [histogram, lines, bars] = charts().map(|chart| picture(&chart, "p"));
    let filled = |svg: &str| svg.matches("<rect").filter(|_| true).count();
    assert!(histogram.matches("#8FB4D9").count() >= 3, "three bars: {histogram}");
    assert!(histogram.contains("drawn") && histogram.contains("computed") && filled(&histogram) >= 3);
    for name in ["one", "two", "three"] {
        assert!(lines.contains(name), "{name}");
    }
    assert!(bars.contains("call 1") && bars.contains("call 2") && bars.contains("chance"), "{bars}");
}

#[test]
fn a_year_of_weeks_has_a_column_each_and_names_that_do_not_overlap() {
    let counts: Vec<(String, u32)> = (0..60).map(|week| (format!("week-{week}"), week % 8)).collect();
    let plot = Plot::Counts { counted: "days", counts, top: 7, level: ("prescribed", 3) };
    let svg = picture(&Chart { title: "T".into(), words: "W".into(), across: "ISO week", plot }, "p");
    // The columns of weeks with nothing have no height and are there all the same.
    assert_eq!(svg.matches("fill=\"#8FB4D9\"").count(), 60, "{svg}");
    let named = svg.matches("week-").count();
    assert!((3..=6).contains(&named), "{named} names");
    assert!(svg.contains("prescribed: 3") && svg.contains("days"), "{svg}");
    assert!(!svg.contains("\n8\n"), "no week has more than seven days");
}

#[test]
fn charts_of_next_to_nothing_are_drawn_too() {
    let bars = |bars: Vec<(String, f64)>| Plot::Bars { bars, levels: vec![("chance", 0.0)] };
    let counts = |counts| Plot::Counts { counted: "days", counts, top: 7, level: ("prescribed", 0) };
    let one_step = |lines| Plot::Lines { from: 0.0, width: 0.2, top: 0.3, lines };
    for plot in [
        bars(vec![("only".into(), 0.0)]),
        bars((0..40).map(|call| (format!("call {call}"), 0.5)).collect()),
        counts(Vec::new()),
        counts(vec![("2026-W01".into(), 0)]),
        counts((0..600).map(|week| (week.to_string(), 7)).collect()),
        one_step(vec![("above the top", vec![1.0])]),
        one_step(vec![("one", vec![0.1])]),
        Plot::Histogram { from: 5.0, width: 1.0, bars_are: "a", curve_is: "b", bars: vec![(0.0, 0.0)] },
    ] {
        let chart = Chart { title: "T".into(), words: "W".into(), across: "x", plot };
        assert!(picture(&chart, "p").trim_end().ends_with("</svg>"));
        crate::display::chart::lines(&chart, 60);
    }
}
