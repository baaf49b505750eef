package foilproof.stock;

import foilproof.bench.Turn;
import java.util.ArrayList;
import java.util.List;

/** Small benches for the tests of this package. */
final class StockFixtures {
    static final double FOIL_MM = 0.0348;
    static final BlankBody BLANK = new BlankBody(20, 16, 1.5, FOIL_MM, false);

    private StockFixtures() {}

    static double rad(double deg) {
        return StrictMath.toRadians(deg);
    }

    static ToolProfile v30(double tipMm) {
        return ToolProfile.vFlatTip(rad(30), tipMm, 3.175, 0);
    }

    static SweepSettings settings(double cellMm) {
        return SweepSettings.forBlank(cellMm, BLANK.widthMm(), BLANK.heightMm()).withThreads(2);
    }

    static Envelope sweep(CutPath path, ToolProfile profile, double cellMm) {
        return Envelope.sweep(path, profile, settings(cellMm), 0);
    }

    static ComposedSide onFlat(Envelope... runs) {
        return board(BlankSurface.FLAT, BLANK, runs).under(Conditions.NOMINAL).side(1);
    }

    /** Runs touched off at (1, 1) on the foil. */
    static BoardStock board(BlankSurface surface, BlankBody blank, Envelope... runs) {
        List<RunCut> cuts = new ArrayList<>();
        for (Envelope run : runs) {
            cuts.add(RunCut.onFoil(cuts.size(), run, 1, 1));
        }
        return new BoardStock(blank, List.of(new SideStock(1, Turn.NO, surface, 0.1, cuts)));
    }

    /** A straight groove through the blank's middle, 8 mm long, at an angle. */
    static CutPath groove(double angleRad, double depthMm, double dx, double dy) {
        double c = 4 * StrictMath.cos(angleRad);
        double s = 4 * StrictMath.sin(angleRad);
        return CutPath.builder()
                .line(10 + dx - c, 8 + dy - s, -depthMm, 10 + dx + c, 8 + dy + s, -depthMm)
                .build();
    }

    /** Cross-section through the blank's middle square to {@link #groove}, 2 mm long. */
    static Section across(ComposedSide side, double angleRad, double dx, double dy) {
        double nx = -StrictMath.sin(angleRad);
        double ny = StrictMath.cos(angleRad);
        return new Section(side, 10 + dx - nx, 8 + dy - ny, 10 + dx + nx, 8 + dy + ny, 0.005);
    }
}
