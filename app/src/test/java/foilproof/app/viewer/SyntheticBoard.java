package foilproof.app.viewer;

import java.util.ArrayList;
import java.util.List;

/** A board of our own, swept by closed forms: traces with rings, a V-shaped engraving bit, bores, an outline cut. */
final class SyntheticBoard {
    static final double CELL_MM = 0.01;
    static final int TILE = 64;
    private static final double MARGIN_MM = 3;

    private final int columns;
    private final int rows;
    private HeightTiles.Tile[] tiles;
    private float[][] data;

    private SyntheticBoard(double widthMm, double heightMm) {
        double tileMm = CELL_MM * TILE;
        columns = (int) Math.ceil((widthMm + 2 * MARGIN_MM) / tileMm);
        rows = (int) Math.ceil((heightMm + 2 * MARGIN_MM) / tileMm);
        begin();
    }

    private void begin() {
        tiles = new HeightTiles.Tile[columns * rows];
        data = new float[columns * rows][];
    }

    private interface Wall {
        double heightMm(double distanceMm);
    }

    /** V bit: floor z, half tip width, walls at half the included angle. */
    private static Wall vee(double z, double halfTipMm, double halfAngleDeg) {
        double slope = 1 / Math.tan(Math.toRadians(halfAngleDeg));
        return d -> d <= halfTipMm ? z : z + (d - halfTipMm) * slope;
    }

    private static Wall flat(double z, double radiusMm) {
        return d -> d <= radiusMm ? z : 9;
    }

    private void line(double x0, double y0, double x1, double y1, double reachMm, Wall wall) {
        int c0 = (int) Math.floor((Math.min(x0, x1) - reachMm + MARGIN_MM) / CELL_MM);
        int c1 = (int) Math.ceil((Math.max(x0, x1) + reachMm + MARGIN_MM) / CELL_MM);
        int r0 = (int) Math.floor((Math.min(y0, y1) - reachMm + MARGIN_MM) / CELL_MM);
        int r1 = (int) Math.ceil((Math.max(y0, y1) + reachMm + MARGIN_MM) / CELL_MM);
        double dx = x1 - x0;
        double dy = y1 - y0;
        double len2 = Math.max(1e-12, dx * dx + dy * dy);
        for (int r = Math.max(0, r0); r <= Math.min(rows * TILE - 1, r1); r++) {
            for (int c = Math.max(0, c0); c <= Math.min(columns * TILE - 1, c1); c++) {
                double px = (c + 0.5) * CELL_MM - MARGIN_MM - x0;
                double py = (r + 0.5) * CELL_MM - MARGIN_MM - y0;
                double t = Math.max(0, Math.min(1, (px * dx + py * dy) / len2));
                double h = wall.heightMm(Math.sqrt((px - t * dx) * (px - t * dx) + (py - t * dy) * (py - t * dy)));
                if (h < 0.3) {
                    int tile = r / TILE * columns + c / TILE;
                    if (data[tile] == null) {
                        data[tile] = new float[TILE * TILE];
                        java.util.Arrays.fill(data[tile], HeightTiles.UNCUT_MM);
                    }
                    int at = r % TILE * TILE + c % TILE;
                    data[tile][at] = Math.min(data[tile][at], (float) h);
                }
            }
        }
    }

    private void ring(double cx, double cy, double radiusMm, double reachMm, Wall wall) {
        int n = Math.max(24, (int) (radiusMm * 40));
        for (int i = 0; i < n; i++) {
            double a = 2 * Math.PI * i / n;
            double b = 2 * Math.PI * (i + 1) / n;
            line(
                    cx + radiusMm * Math.cos(a),
                    cy + radiusMm * Math.sin(a),
                    cx + radiusMm * Math.cos(b),
                    cy + radiusMm * Math.sin(b),
                    reachMm,
                    wall);
        }
    }

    private void path(Wall wall, double reachMm, double... xy) {
        for (int i = 0; i + 3 < xy.length; i += 2) {
            line(xy[i], xy[i + 1], xy[i + 2], xy[i + 3], reachMm, wall);
        }
    }

    private HeightTiles finish() {
        for (int i = 0; i < data.length; i++) {
            tiles[i] = data[i] == null ? null : new HeightTiles.ArrayTile(data[i]);
        }
        HeightTiles t = new HeightTiles(-MARGIN_MM, -MARGIN_MM, CELL_MM, TILE, columns, rows, tiles);
        begin();
        return t;
    }

    /** 40 x 30 mm FR-1: isolation at -0.1 (one stretch only 0.010 deep: foil left), pads, bores through, outline. */
    static BoardSnapshot small(BoardSnapshot.Substrate substrate) {
        SyntheticBoard s = new SyntheticBoard(40, 30);
        Wall v = vee(-0.1, 0.05, 15);
        for (int i = 0; i < 4; i++) {
            double y = 6 + 5 * i;
            s.path(v, 0.3, 6, y - 0.45, 17, y - 0.45, 20, y + 1.55, 32, y + 1.55);
            s.path(v, 0.3, 6, y + 0.45, 16.6, y + 0.45, 19.6, y + 2.45, 32, y + 2.45);
            s.ring(5, y, 1.1, 0.3, v);
            s.ring(33.2, y + 2, 1.1, 0.3, v);
        }
        s.path(vee(-0.010, 0.05, 15), 0.3, 10, 27, 24, 27);
        s.path(v, 0.3, 24, 27, 36, 27);
        HeightTiles engrave = s.finish();
        for (int i = 0; i < 4; i++) {
            double y = 6 + 5 * i;
            s.line(5, y, 5, y, 0.6, flat(-2.0, 0.4));
            s.line(33.2, y + 2, 33.2, y + 2, 0.6, flat(-2.0, 0.5));
        }
        s.path(flat(-1.75, 0.4), 0.45, 2, 2, 38, 2, 38, 29, 2, 29, 2, 2);
        s.path(flat(-0.3, 0.4), 0.45, 20, 9, 30, 9);
        HeightTiles cutter = s.finish();
        List<BoardSnapshot.Mark> marks = new ArrayList<>();
        marks.add(new BoardSnapshot.Mark(1, "foil left in a groove", 2, 17, 27, true));
        return new BoardSnapshot(
                "Synthetic",
                1,
                "bottom copper",
                40,
                30,
                1.5,
                0.0174,
                substrate,
                true,
                false,
                0.1,
                6,
                0.3,
                BoardSnapshot.Surface.flat(),
                List.of(
                        BoardSnapshot.ToolRun.here("engraver", "engraver, isolation", engrave, 0, true, 2, 28),
                        BoardSnapshot.ToolRun.here("cutter", "cutter, boring and outline", cutter, 0, true, 2, 28)),
                List.of(),
                List.of(new BoardSnapshot.KeepOut("left clamp", -4, 10, -0.5, 20, 5)),
                List.of(new BoardSnapshot.Place("touch-off", 1, 28)),
                new BoardSnapshot.Place("clip", 38, 28),
                marks,
                new BoardSnapshot.Cutter(
                        "engraver",
                        new double[] {0, 0, 0.05, 0, 1.5875, 5.74, 1.5875, 12, 8, 12, 8, 22},
                        5.74,
                        24,
                        11.55,
                        -0.1),
                12.5,
                "side 1, isolation, line 412 of 2210, T1, Z -0.100 mm, 00:12");
    }
}
