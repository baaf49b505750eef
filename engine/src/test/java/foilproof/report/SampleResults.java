package foilproof.report;

import foilproof.findings.Certainty;
import foilproof.findings.Finding;
import foilproof.findings.Measured;
import foilproof.findings.NotChecked;
import foilproof.findings.Severity;
import java.util.List;

/** Results made by hand for the tests of the writers. */
final class SampleResults {
    private SampleResults() {}

    static ResultDocument clean() {
        return with(List.of());
    }

    /** Everything filled, with texts that hurt careless writers. */
    static ResultDocument nasty() {
        Finding consequence = Finding.of("hole-missing", Severity.STOP, Certainty.GEOMETRY)
                .says("Hole 1 <is> missing & more")
                .line("bores \"a\" & b.ngc", 7)
                .build();
        Finding cause = Finding.of("units-unset", Severity.STOP, Certainty.GEOMETRY)
                .says("Units never stated: \"G0 X1\" </script><b>\u0001\u2028")
                .doThis("Add G21 to the header.")
                .side(1)
                .at(-0.0, Double.NaN)
                .box(0, 1, 2, 1 / 3.0)
                .line("bores \"a\" & b.ngc", 3)
                .time(12.3456)
                .tool("engraver")
                .atLeast(Measured.mm("width", 0.0213, 0.0021), 0.05)
                .build()
                .withConsequences(List.of(consequence));
        Finding note = Finding.of("stray-copper", Severity.NOTE, Certainty.RULE_OF_THUMB)
                .says("Large leftover copper.")
                .build();
        return with(List.of(cause, note));
    }

    static ResultDocument with(List<Finding> findings) {
        return new ResultDocument(
                "Thermistor amplifier",
                Verdict.of(findings),
                5,
                List.of("blank 100 x 80 mm"),
                List.of(new ResultDocument.InputFile("iso lation.ngc", "ab".repeat(32))),
                List.of(new ResultDocument.SetUp("blank", "FR-1 1.500 mm (59.1 thou), foil 17.4 um")),
                List.of(window(), emptyWindow()),
                new ResultDocument.JointWindow(
                        false, -0.0776, 0.05, new ResultDocument.LimitedBy("foil-left", null), null),
                findings,
                List.of(new NotChecked("opens and shorts", "no netlist or layer image given")),
                List.of(new ResultDocument.SideFacts("bottom", 2500.123456789, 7, 199.9, 0)),
                new ResultDocument.Removed(3.2, 9.1, 0),
                List.of(new ResultDocument.ToolFacts(
                        "engraver",
                        1,
                        "V-shaped engraving bit",
                        "copper only",
                        1,
                        120.5,
                        -0.1,
                        118,
                        55.5,
                        new double[] {90, 420},
                        null,
                        3.8,
                        null)),
                List.of(new ResultDocument.RunFacts(1, "engraver", 1, "isolation.ngc", 4, 0, 55.5, -0.1)),
                List.of(new ResultDocument.HoleFacts(1, new double[] {10, 8.89}, 1.06, 0.21, true, 0.4, "cutter", 12)),
                List.of(new ResultDocument.NetFacts("GND", 1, List.of("VIN"), 0.41, 12.34, null)),
                new ResultDocument.TimeFacts(3725.04, 3000, 60, 1));
    }

    private static ResultDocument.ZWindow window() {
        return new ResultDocument.ZWindow(
                "engraver",
                1,
                1,
                false,
                -0.0776,
                0.05,
                0.0004,
                -0.0776,
                null,
                new ResultDocument.LimitedBy("foil-left", new double[] {22.4, 9.1}),
                new ResultDocument.LimitedBy("duty-broken", null),
                new double[] {-0.05, 0.03},
                0.02,
                null);
    }

    private static ResultDocument.ZWindow emptyWindow() {
        return new ResultDocument.ZWindow(
                "cutter",
                1,
                2,
                true,
                0.02,
                -0.01,
                0.001,
                null,
                null,
                null,
                null,
                null,
                null,
                "no single depth works: flatten the blank");
    }
}
