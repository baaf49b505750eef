package foilproof.report;

import foilproof.bench.Face;
import foilproof.bench.Side;
import foilproof.findings.Examination;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Severity;
import foilproof.stock.ComposedSide;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The pictures of a report: each side's copper, foil left and margin to scale, and close-ups of findings. */
public final class BoardPictures {
    private static final int LONGEST_PX = 1600;
    private static final int CLOSE_UP_PX = 360;
    private static final double LEAST_CLOSE_UP_MM = 2;
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
        return new ReportExtras(pictures.sides(), new ProgramLines(examination.job())::text, pictures::closeUp);
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
                if (theme == BoardPainter.Theme.FOIL_LEFT && !tellsOfFoilLeft(findings)) {
                    continue;
                }
                BoardPainter painter = new BoardPainter(examination, view, theme);
                out.add(painter.picture(name(side, theme), title(side, theme), labels(view)));
            }
        }
        return out;
    }

    private static boolean tellsOfFoilLeft(List<Finding> findings) {
        for (Finding finding : findings) {
            if (finding.kind().equals(Kinds.FOIL_LEFT) || tellsOfFoilLeft(finding.consequences())) {
                return true;
            }
        }
        return false;
    }

    private static String name(Side side, BoardPainter.Theme theme) {
        return "side-" + side.number() + "-" + theme.word();
    }

    private static String title(Side side, BoardPainter.Theme theme) {
        String face = side.face() == Face.TOP ? "top copper" : "bottom copper";
        return "Side " + side.number() + ", " + theme.title() + "; " + face
                + ", seen with this face up, X to the right";
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
        double sizeMm = LEAST_CLOSE_UP_MM;
        double[] box = finding.boxMm();
        if (box != null) {
            double longer = Math.max(box[2] - box[0], box[3] - box[1]);
            sizeMm = Double.isFinite(longer) ? Math.max(sizeMm, Math.min(MOST_CLOSE_UP_MM, longer * 1.2)) : sizeMm;
        }
        double pxMm = pixelMm(sizeMm / CLOSE_UP_PX, 0.001);
        double half = CLOSE_UP_PX * pxMm / 2;
        BoardView view = new BoardView(side, at[0] - half, at[1] - half, half * 2, half * 2, pxMm);
        if (!view.meets(examination.side(side))) {
            return null;
        }
        return new BoardPainter(examination, view, BoardPainter.Theme.COPPER)
                .picture("finding-" + (index + 1), "Around " + HumanText.place(at), List.of());
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
