use trial::Error;

#[test]
fn law_every_refusal_says_value_and_limit() {
    let all = [
        (
            Error::NotPositive {
                what: "the lag",
                value: -1.0,
            },
            "the lag is -1, it must be above zero",
        ),
        (
            Error::Outside {
                what: "the share",
                value: 2.0,
                low: 0.0,
                high: 1.0,
            },
            "the share is 2, outside 0 to 1",
        ),
        (
            Error::TooFew {
                what: "runs",
                count: 1,
                least: 2,
            },
            "1 runs, at least 2 are needed",
        ),
        (
            Error::Order {
                what: "times of a log",
                first: 5.0,
                second: 4.0,
            },
            "times of a log: 4 does not come after 5",
        ),
        (
            Error::Broken {
                from: 5.0,
                to: 15.0,
            },
            "the log breaks off between 5 s and 15 s; choose a window on one side of the break",
        ),
        (
            Error::Contradicted {
                what: "one speed",
                value: 3.0,
                most: 1.0,
            },
            "one speed is taken for granted, and the readings miss that by 3; 1 is the most allowed",
        ),
        (
            Error::NoCorrection {
                what: "an engine whose air is pressed",
            },
            "no correction applies to an engine whose air is pressed",
        ),
    ];
    for (error, text) in all {
        assert_eq!(error.to_string(), text);
    }
}
