package foilproof.report;

import foilproof.findings.Examination;
import foilproof.stock.ComposedSide;
import java.util.Arrays;
import java.util.List;

/**
 * Paints one window of a side from the composed grid: of the cells under a pixel a few rows and columns are looked at and
 * their colours mixed, so that thin grooves stay visible in small pictures. The colours of each theme differ in lightness
 * and rise in one direction with the value, so that they keep apart and in order in grey.
 */
final class BoardPainter {
    private static final int OFF_BLANK = 0xffffff;
    private static final int COPPER = 0xa8642f;
    private static final int FLOOR = 0xe9dfc0;
    private static final int DEEP = 0xc2b795;
    private static final int THROUGH = 0x26282c;
    /** Foil left, hatched with white. */
    static final int LEFT = 0xd4145a;

    private static final int UNTOUCHED = 0xe4e4e4;
    /** What was not cut and what is as it should be are greys from here on. */
    static final int GROUND_FROM = 0xe4;

    private static final int BARE = 0xfafafa;
    private static final int[] LEFT_RAMP = {0xe59ab2, 0xd0507e, 0xa01048, 0x500020};
    private static final int[] MARGIN_RAMP = {0x101010, 0x7a1f14, 0xb5562a, 0xc99a4a, 0xb4cfa4};
    private static final int[] SPOIL_RAMP = {0xfafafa, 0xd8b878, 0xa06a28, 0x401800};
    private static final double[] MARGIN_MM = {0, 0.02, 0.05, 0.1};
    private static final double DEEP_MM = 0.3;
    private static final double CLEAR_MM = 0.005;
    private static final int MOST_SAMPLES = 3;

    /** What is shown. */
    enum Theme {
        /** What is copper and what is not. */
        COPPER("copper", "copper at the foil bottom", ""),
        /** Foil left where a cutter entered. */
        FOIL_LEFT("foil-left", "foil left where a cutter entered", "no foil is left where a cutter entered."),
        /** How much Z error the grooves bear before foil is left. */
        MARGIN("margin", "Z margin of the grooves: mm of Z that can be lost before foil is left", "no groove is cut."),
        /** How deep the spoil board is cut. */
        SPOIL_BOARD(
                "spoil-board",
                "cuts into tape and spoil board below the blank",
                "nothing is cut into the spoil board.");

        private final String word;
        private final String title;
        private final String nothing;

        Theme(String word, String title, String nothing) {
            this.word = word;
            this.title = title;
            this.nothing = nothing;
        }

        String word() {
            return word;
        }

        String title() {
            return title;
        }

        /** What there is to say where the picture shows nothing; empty where it always shows something. */
        String nothing() {
            return nothing;
        }
    }

    private final Examination examination;
    private final BoardView view;
    private final Theme theme;
    private final ComposedSide side;
    private final boolean far;
    private final boolean foil;
    private final int columns;
    private final float[] cut;
    private final float[] below;
    private final float[] above;
    private final int wallCells;
    private final float[] farCut;
    private final double[] surface;

    BoardPainter(Examination examination, BoardView view, Theme theme) {
        this.examination = examination;
        this.view = view;
        this.theme = theme;
        this.side = examination.side(view.side());
        this.far = examination.board().cutFromFarSide(view.side());
        this.foil = examination.job().blank().bothSides()
                || examination.job().sides().get(0).face()
                        == examination.job().sides().get(view.side() - 1).face();
        this.columns = side.columns();
        this.cut = new float[columns];
        this.below = new float[columns];
        this.above = new float[columns];
        // the wall of a bit of up to 90 degrees crosses the foil within the foil's own thickness
        this.wallCells = (int) Math.ceil(side.foilMm() / side.cellMm()) + 1;
        this.farCut = new float[columns];
        this.surface = new double[columns];
    }

    FlatPicture picture(String name, String title, List<FlatPicture.Label> labels) {
        return new FlatPicture(name, title, view.widthPx(), view.heightPx(), view.pxMm(), this::row, legend(), labels);
    }

    private List<FlatPicture.Legend> legend() {
        return switch (theme) {
            case COPPER ->
                List.of(
                        new FlatPicture.Legend(COPPER, "copper"),
                        new FlatPicture.Legend(LEFT, "foil left where a cutter entered"),
                        new FlatPicture.Legend(FLOOR, "substrate, cleared"),
                        new FlatPicture.Legend(DEEP, "deeper than 0.3 mm below the foil top"),
                        new FlatPicture.Legend(THROUGH, "through the blank"));
            case FOIL_LEFT ->
                List.of(
                        new FlatPicture.Legend(UNTOUCHED, "foil untouched"),
                        new FlatPicture.Legend(BARE, "no foil left"),
                        new FlatPicture.Legend(LEFT_RAMP[0], "up to 5 um left"),
                        new FlatPicture.Legend(LEFT_RAMP[1], "5 to 10 um"),
                        new FlatPicture.Legend(LEFT_RAMP[2], "10 to 20 um"),
                        new FlatPicture.Legend(LEFT_RAMP[3], "more than 20 um"));
            case SPOIL_BOARD ->
                List.of(
                        new FlatPicture.Legend(UNTOUCHED, "blank not cut through"),
                        new FlatPicture.Legend(SPOIL_RAMP[0], "tape only"),
                        new FlatPicture.Legend(SPOIL_RAMP[1], "up to 0.3 mm into the spoil board"),
                        new FlatPicture.Legend(SPOIL_RAMP[2], "0.3 to 0.5 mm"),
                        new FlatPicture.Legend(SPOIL_RAMP[3], "more than 0.5 mm"));
            case MARGIN ->
                List.of(
                        new FlatPicture.Legend(UNTOUCHED, "foil untouched"),
                        new FlatPicture.Legend(MARGIN_RAMP[0], "not cleared by 5 um"),
                        new FlatPicture.Legend(MARGIN_RAMP[1], "less than 0.02 mm"),
                        new FlatPicture.Legend(MARGIN_RAMP[2], "0.02 to 0.05 mm"),
                        new FlatPicture.Legend(MARGIN_RAMP[3], "0.05 to 0.1 mm"),
                        new FlatPicture.Legend(MARGIN_RAMP[4], "more than 0.1 mm"));
        };
    }

    private void row(int yPx, int[] rgb) {
        double cells = view.pxMm() / side.cellMm();
        int samples = (int) Math.max(1, Math.min(MOST_SAMPLES, Math.rint(cells)));
        int width = view.widthPx();
        int[] sums = new int[width * 3];
        for (int s = 0; s < samples; s++) {
            double yMm = view.yMm(yPx + (s + 0.5) / samples - 0.5);
            int j = (int) Math.floor(yMm / side.cellMm());
            boolean on = j >= 0 && j < side.rows();
            if (on) {
                load(j);
            }
            for (int x = 0; x < width; x++) {
                for (int t = 0; t < samples; t++) {
                    int i = (int) Math.floor(view.xMm(x + (t + 0.5) / samples - 0.5) / side.cellMm());
                    int colour = on && i >= 0 && i < columns ? colour(i, x, yPx) : OFF_BLANK;
                    sums[x * 3] += colour >> 16;
                    sums[x * 3 + 1] += colour >> 8 & 255;
                    sums[x * 3 + 2] += colour & 255;
                }
            }
        }
        int n = samples * samples;
        for (int x = 0; x < width; x++) {
            rgb[x] = sums[x * 3] / n << 16 | sums[x * 3 + 1] / n << 8 | sums[x * 3 + 2] / n;
        }
    }

    private void load(int j) {
        side.cutRow(j, 0, columns, cut);
        side.surfaceRow(j, 0, columns, surface);
        if (theme == Theme.COPPER || theme == Theme.FOIL_LEFT) {
            side.cutRow(Math.max(0, j - wallCells), 0, columns, below);
            side.cutRow(Math.min(side.rows() - 1, j + wallCells), 0, columns, above);
        }
        if (far) {
            examination.board().farCutRow(view.side(), j, 0, columns, farCut);
        } else {
            Arrays.fill(farCut, (float) side.undersideMm());
        }
    }

    private int colour(int i, int xPx, int yPx) {
        double top = surface[i];
        double glueMm = top - (foil ? side.foilMm() : 0);
        double marginMm = Math.min(cut[i] - glueMm, far ? glueMm - farCut[i] : Double.MAX_VALUE);
        boolean entered = cut[i] < top;
        boolean through = Math.min(cut[i], top) <= farCut[i];
        boolean copper = foil && marginMm > 0;
        return switch (theme) {
            case COPPER -> {
                if (through) {
                    yield THROUGH;
                }
                if (copper && entered && !wall(i, glueMm)) {
                    // Hatched, so that it shows in grey and beside copper.
                    yield (xPx + yPx) % 6 < 3 ? LEFT : 0xffffff;
                }
                yield copper ? COPPER : cut[i] < top - DEEP_MM ? DEEP : FLOOR;
            }
            case FOIL_LEFT -> {
                if (through || !copper) {
                    yield BARE;
                }
                yield entered && !wall(i, glueMm)
                        ? LEFT_RAMP[marginMm <= 0.005 ? 0 : marginMm <= 0.01 ? 1 : marginMm <= 0.02 ? 2 : 3]
                        : UNTOUCHED;
            }
            case SPOIL_BOARD -> spoilColour(cut[i]);
            case MARGIN -> copper && !entered ? UNTOUCHED : MARGIN_RAMP[marginStep(-marginMm - CLEAR_MM)];
        };
    }

    /** Whether the groove is cleared just beside: what a cutter left here is the slope of its wall, and no foil on a floor. */
    private boolean wall(int i, double glueMm) {
        return below[i] <= glueMm
                || above[i] <= glueMm
                || cut[Math.max(0, i - wallCells)] <= glueMm
                || cut[Math.min(columns - 1, i + wallCells)] <= glueMm;
    }

    private int spoilColour(double cutMm) {
        if (cutMm >= side.undersideMm() - 1e-6) {
            return UNTOUCHED;
        }
        double intoMm = side.spoilBoardMm() - cutMm;
        return SPOIL_RAMP[intoMm <= 1e-6 ? 0 : intoMm <= 0.3 ? 1 : intoMm <= 0.5 ? 2 : 3];
    }

    private static int marginStep(double leftMm) {
        int step = 0;
        while (step < MARGIN_MM.length && leftMm >= MARGIN_MM[step]) {
            step++;
        }
        return step;
    }
}
