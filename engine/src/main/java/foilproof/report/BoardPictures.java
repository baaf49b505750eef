package foilproof.report;

import foilproof.bench.Side;
import foilproof.findings.Examination;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import foilproof.stock.ComposedSide;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The pictures of a report: each side's copper, foil left and margin to scale, and close-ups of findings. */
public final class BoardPictures {
    private static final int LONGEST_PX = 1600;
    private static final int CLOSE_UP_PX = 720;
    private static final double MOST_CLOSE_UP_MM = 20;
    private static final int MOST_LABELS = 40;
    private static final int MOST_CLOSE_UPS = 40;

    private final Examination examination;
    private final List<Finding> findings;

    private BoardPictures(Examination examination, List<Finding> findings) {
        this.examination = examination;
        this.findings = findings;
    }

    /** What a report of this job shows beside its numbers. {@code findings} in the order of the report. */
    public static ReportExtras of(Examination examination, List<Finding> findings) {
        BoardPictures pictures = new BoardPictures(examination, findings);
        return new ReportExtras(
                pictures.sides(), new ProgramLines(examination.job())::text, pictures::closeUp, examination);
    }

    private List<FlatPicture> sides() {
        List<FlatPicture> out = new ArrayList<>();
        for (Side side : examination.job().sides()) {
            ComposedSide composed = examination.side(side.number());
            double widthMm = composed.columns() * composed.cellMm();
            double heightMm = composed.rows() * composed.cellMm();
            double pxMm = pixelMm(Math.max(widthMm, heightMm) / LONGEST_PX, composed.cellMm());
            BoardView view = new BoardView(side.number(), 0, 0, widthMm, heightMm, pxMm);
            for (BoardPainter.Theme theme : BoardPainter.Theme.values()) {
                BoardPainter painter = new BoardPainter(examination, view, theme);
                FlatPicture seen = painter.picture(name(side, theme), title(side, theme), labels(view));
                out.add(seen);
                if (theme == BoardPainter.Theme.COPPER) {
                    out.add(through(seen, side));
                }
            }
        }
        return out;
    }

    /** The same copper as it lies under the far face: left and right exchanged. */
    private FlatPicture through(FlatPicture seen, Side side) {
        boolean solder = BenchSections.solderSide(side);
        FlatPicture.Pixels pixels = (y, rgb) -> {
            seen.pixels().row(y, rgb);
            for (int i = 0, j = seen.widthPx() - 1; i < j; i++, j--) {
                int kept = rgb[i];
                rgb[i] = rgb[j];
                rgb[j] = kept;
            }
        };
        String title = "Side " + side.number() + "'s copper seen through the board from the "
                + (solder ? "component side, components towards you" : "solder side, components away")
                + "; X runs right to left against the blank as it lies on side " + side.number();
        return new FlatPicture(
                "side-" + side.number() + "-copper-through",
                title,
                seen.widthPx(),
                seen.heightPx(),
                seen.mmPerPx(),
                pixels,
                seen.legend(),
                List.of());
    }

    private static String name(Side side, BoardPainter.Theme theme) {
        return "side-" + side.number() + "-" + theme.word();
    }

    private static String title(Side side, BoardPainter.Theme theme) {
        return "Side " + side.number() + ", " + theme.title() + ". You are looking at the "
                + (BenchSections.solderSide(side)
                        ? "solder side (bottom copper), components away"
                        : "component side (top copper), components towards you")
                + "; X runs left to right as the blank lies on side " + side.number();
    }

    private List<FlatPicture.Label> labels(BoardView view) {
        List<FlatPicture.Label> out = new ArrayList<>();
        for (int i = 0; i < findings.size() && out.size() < MOST_LABELS; i++) {
            Finding finding = findings.get(i);
            double[] at = place(finding);
            Integer side = finding.side();
            if (finding.severity().atLeast(Severity.WATCH) && at != null && side != null && side == view.side()) {
                out.add(view.label(at[0], at[1], Integer.toString(i + 1)));
            }
        }
        return out;
    }

    private static double @Nullable [] place(Finding finding) {
        double[] at = finding.atMm();
        return at != null && Double.isFinite(at[0]) && Double.isFinite(at[1]) ? at : null;
    }

    private @Nullable FlatPicture closeUp(Finding finding) {
        int index = findings.indexOf(finding);
        double[] at = place(finding);
        Integer side = finding.side();
        boolean wanted = finding.severity().atLeast(Severity.FIX) && index >= 0 && index < MOST_CLOSE_UPS;
        if (!wanted
                || at == null
                || side == null
                || side > examination.job().sides().size()) {
            return null;
        }
        double pxMm = pixelMm(MOST_CLOSE_UP_MM / CLOSE_UP_PX, 0.001);
        double half = CLOSE_UP_PX * pxMm / 2;
        BoardView view = new BoardView(side, at[0] - half, at[1] - half, half * 2, half * 2, pxMm);
        if (!view.meets(examination.side(side))) {
            return null;
        }
        return new BoardPainter(examination, view, BoardPainter.Theme.COPPER)
                .picture(
                        "finding-" + (index + 1),
                        "20 mm around " + HumanText.place(at) + "; the place is left below the number",
                        List.of(view.label(at[0], at[1], Integer.toString(index + 1))));
    }

    /** The least whole number below ten x 10^n um that is at least {@code wantedMm} and {@code leastMm}. */
    static double pixelMm(double wantedMm, double leastMm) {
        double need = Math.max(wantedMm, leastMm) * 0.999999;
        for (double decadeUm = 1; ; decadeUm *= 10) {
            for (int step = 1; step < 10; step++) {
                double pxMm = decadeUm * step / 1000;
                if (pxMm >= need) {
                    return pxMm;
                }
            }
        }
    }
}
