package foilproof.app.viewer;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.GeneralPath;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Writes over a picture as vectors: what is looked at, scale bar, arrows of X and Y at the zero corner, factor of Z,
 * legend, names of clamps and places, marks of findings. Used for pictures in files and in the window alike.
 */
public final class OverlayPainter {
    private final BoardSnapshot board;
    private final BoardSnapshot.Conditions conditions;
    private final Camera camera;
    private final Look look;
    private final OffscreenRenderer.Request request;
    private final int width;
    private final int height;
    private final Ink ink;
    /** Where labels stand already, pixels. */
    private final List<Rectangle2D> taken = new ArrayList<>();

    private double right;
    private double legendTop;

    /** For one picture of this size. */
    public OverlayPainter(OffscreenRenderer.Request request, int width, int height, double scale) {
        board = request.board();
        conditions = request.conditions();
        camera = request.camera();
        look = request.look();
        this.request = request;
        this.width = width;
        this.height = height;
        ink = new Ink(look.dark(), scale);
    }

    /** Size of the ink for a picture that nobody zooms. */
    public static double scaleFor(int width, int height) {
        return Math.max(0.75, Math.min(height / 800.0, width / 1100.0));
    }

    /** What is looked at, in words, with the state of mirroring. */
    public static String lookingAt(BoardSnapshot board, Camera camera) {
        boolean bottomUp = board.face().startsWith("bottom");
        boolean solder = bottomUp != camera.fromBelow();
        String mirror = solder
                ? "mirrored against a layout drawn from the top"
                : "the same way round as a layout drawn from the top";
        if (camera.fromBelow()) {
            boolean aboutX =
                    camera.turn() != null ? camera.turn().aboutX() : Math.abs(Math.cos(camera.azimuthRad()) + 1) >= 0.5;
            String axis = aboutX ? "X" : "Y";
            String runs = camera.turn() == null ? aboutX ? ": Y runs down" : ": X runs to the left" : "";
            return "You are looking at the underside, the " + (solder ? "solder" : "component") + " side ("
                    + (board.copperDown() ? "foil" : "no foil") + "), turned about " + axis + runs + "; " + mirror;
        }
        String from = camera.turn() != null
                ? String.format(
                        Locale.ROOT,
                        "turned over by %.0f degrees about %s",
                        Math.toDegrees(camera.turn().turnRad()),
                        camera.turn().aboutX() ? "X" : "Y")
                : camera.elevationRad() > Math.PI / 2 - 1e-3 ? "from above" : "at a slant";
        return "You are looking at the " + board.face() + " (" + (solder ? "solder" : "component") + " side) " + from
                + ", side " + board.side() + " up; " + mirror;
    }

    /** Writes everything; the legend in the lower right corner. */
    public void paint(Graphics2D g) {
        paintBoard(g);
        legendBeside(g, 0);
    }

    /** The legend, so far to the right of its corner; gives back where it begins, pixels from above. */
    double legendBeside(Graphics2D g, double further) {
        Ink.smooth(g);
        right = width + further;
        legend(g);
        return legendTop;
    }

    /** Everything but the legend. */
    void paintBoard(Graphics2D g) {
        Ink.smooth(g);
        taken.clear();
        axes(g);
        List<Placed> marks = placedMarks();
        places(g);
        pinOnes(g);
        marks(g, marks);
        swipe(g);
        words(g);
        scaleBar(g);
    }

    private double[] at(double x, double y, double z) {
        return camera.project(x, y, z, width, height);
    }

    private void words(Graphics2D g) {
        double most = Math.max(ink.px(200), width - ink.px(44));
        g.setFont(ink.plain());
        List<String> lines = new ArrayList<>(Ink.broken(g, lookingAt(board, camera), most));
        int faintFrom = lines.size();
        lines.addAll(Ink.broken(g, board.stateWords() + whatIf(board, conditions), most));
        double w = 0;
        for (String line : lines) {
            w = Math.max(w, g.getFontMetrics().getStringBounds(line, g).getWidth());
        }
        g.setFont(ink.bold());
        w = Math.max(w, g.getFontMetrics().getStringBounds(board.job(), g).getWidth());
        double x = ink.px(12);
        ink.plate(g, x, ink.px(12), w + ink.px(20), ink.px(28 + 18 * lines.size()));
        g.setColor(ink.text);
        g.drawString(board.job(), (float) (x + ink.px(10)), (float) ink.px(31));
        g.setFont(ink.plain());
        for (int i = 0; i < lines.size(); i++) {
            g.setColor(i < faintFrom ? ink.text : ink.faint);
            g.drawString(lines.get(i), (float) (x + ink.px(10)), (float) ink.px(49 + 18 * i));
        }
    }

    /** The what-ifs in words, each with a leading semicolon; empty where there are none. */
    static String whatIf(BoardSnapshot board, BoardSnapshot.Conditions conditions) {
        StringBuilder s = new StringBuilder();
        for (int k = 0; k < board.runs().size(); k++) {
            double e = conditions.zErrorMm(k);
            if (conditions.isAbsent(k)) {
                s.append("; what if: ").append(board.runs().get(k).words()).append(" left out");
            } else if (e != 0) {
                s.append(String.format(
                        Locale.ROOT,
                        "; what if: %s %.3f mm %s",
                        board.runs().get(k).name(),
                        Math.abs(e),
                        e > 0 ? "deeper" : "higher"));
            }
        }
        if (conditions.bowMm() != 0) {
            s.append(String.format(Locale.ROOT, "; what if: middle %.3f mm low", conditions.bowMm()));
        }
        return s.toString();
    }

    private void axes(Graphics2D g) {
        double z = camera.fromBelow() ? -board.thicknessMm() : 0;
        double len = Math.min(board.widthMm(), board.heightMm()) * 0.16;
        double[] o = at(0, 0, z);
        if (o[2] <= 0) {
            return;
        }
        arrow(g, o, at(len, 0, z), "X");
        arrow(g, o, at(0, len, z), "Y");
        double r = ink.px(3.5);
        g.setColor(ink.accent);
        g.fill(new Ellipse2D.Double(o[0] - r, o[1] - r, 2 * r, 2 * r));
        taken.add(new Rectangle2D.Double(o[0] - ink.px(62), o[1] + ink.px(4), ink.px(56), ink.px(20)));
        ink.tag(g, "X 0  Y 0", o[0] - ink.px(62), o[1] + ink.px(14));
    }

    private void arrow(Graphics2D g, double[] from, double[] to, String name) {
        double dx = to[0] - from[0];
        double dy = to[1] - from[1];
        double n = Math.hypot(dx, dy);
        if (to[2] <= 0 || n < ink.px(8)) {
            return;
        }
        dx /= n;
        dy /= n;
        double a = ink.px(9);
        GeneralPath head = new GeneralPath();
        head.moveTo(to[0], to[1]);
        head.lineTo(to[0] - a * dx + a * 0.45 * dy, to[1] - a * dy - a * 0.45 * dx);
        head.lineTo(to[0] - a * dx - a * 0.45 * dy, to[1] - a * dy + a * 0.45 * dx);
        head.closePath();
        Shape shaft = new Line2D.Double(from[0], from[1], to[0] - a * 0.8 * dx, to[1] - a * 0.8 * dy);
        g.setColor(ink.plate);
        g.setStroke(ink.stroke(5.5));
        g.draw(shaft);
        g.draw(head);
        g.setColor(ink.accent);
        g.setStroke(ink.stroke(2.4));
        g.draw(shaft);
        g.fill(head);
        double tx = to[0] + dx * ink.px(12) - ink.px(9);
        double ty = to[1] + dy * ink.px(12);
        taken.add(ink.tagBox(g, name, tx, ty));
        ink.tag(g, name, tx, ty);
    }

    private void places(Graphics2D g) {
        if (camera.fromBelow() || camera.turn() != null || look.lifted() || !look.fixtures()) {
            return;
        }
        for (BoardSnapshot.KeepOut k : board.keepOuts()) {
            double top = Math.min(k.topMm(), 12) / camera.zFactor();
            double[] p = at((k.x0Mm() + k.x1Mm()) / 2, (k.y0Mm() + k.y1Mm()) / 2, top);
            if (p[2] > 0 && inView(k, top)) {
                named(g, k.name(), p[0], p[1], k.round() ? ink.px(12) : -ink.px(20), true);
            }
        }
        for (BoardSnapshot.Place p : board.touchPoints()) {
            label(g, p.name(), p.xMm(), p.yMm(), 1.5 / camera.zFactor());
        }
        BoardSnapshot.Place clip = board.clip();
        if (clip != null) {
            label(g, "clip", clip.xMm(), clip.yMm(), 2.5 / camera.zFactor());
        }
        BoardSnapshot.Cutter c = board.cutter();
        if (c != null) {
            if (camera.elevationRad() > 1.3) {
                cutterFromAbove(g, c);
            }
            label(g, c.name(), c.xMm(), c.yMm(), c.zMm());
        }
    }

    /** Two rings: the cutter at the foil top, and its widest; a cross at its axis. */
    private void cutterFromAbove(Graphics2D g, BoardSnapshot.Cutter c) {
        double[] p = at(c.xMm(), c.yMm(), c.zMm());
        double perMm = camera.pixelsPerMm(height);
        double atFoil = 0;
        double most = 0;
        for (int i = 0; i + 1 < c.profileMm().length; i += 2) {
            boolean cutting = c.profileMm()[i + 1] <= c.cutsToMm() + 1e-9;
            most = cutting ? Math.max(most, c.profileMm()[i]) : most;
            atFoil = c.zMm() + c.profileMm()[i + 1] <= 1e-9 ? Math.max(atFoil, c.profileMm()[i]) : atFoil;
        }
        for (double r : new double[] {atFoil * perMm, most * perMm}) {
            g.setColor(ink.plate);
            g.setStroke(ink.stroke(4));
            g.draw(new Ellipse2D.Double(p[0] - r, p[1] - r, 2 * r, 2 * r));
            g.setColor(ink.accent);
            g.setStroke(ink.stroke(1.8));
            g.draw(new Ellipse2D.Double(p[0] - r, p[1] - r, 2 * r, 2 * r));
        }
        double a = ink.px(7);
        g.draw(new Line2D.Double(p[0] - a, p[1], p[0] + a, p[1]));
        g.draw(new Line2D.Double(p[0], p[1] - a, p[0], p[1] + a));
    }

    private void label(Graphics2D g, String words, double x, double y, double z) {
        double[] p = at(x, y, z);
        if (inView(p)) {
            named(g, words, p[0], p[1], ink.px(10), true);
        }
    }

    private boolean inView(double[] p) {
        return p[2] > 0 && p[0] >= 0 && p[1] >= 0 && p[0] <= width && p[1] <= height;
    }

    /** Whether a corner of a keep-out's top, or its middle, is seen. */
    private boolean inView(BoardSnapshot.KeepOut k, double top) {
        double midX = (k.x0Mm() + k.x1Mm()) / 2;
        double midY = (k.y0Mm() + k.y1Mm()) / 2;
        double[][] places = {
            {midX, midY}, {k.x0Mm(), k.y0Mm()}, {k.x1Mm(), k.y0Mm()}, {k.x0Mm(), k.y1Mm()}, {k.x1Mm(), k.y1Mm()}
        };
        for (double[] xy : places) {
            if (inView(at(xy[0], xy[1], top))) {
                return true;
            }
        }
        return false;
    }

    private boolean free(Rectangle2D box) {
        return taken.stream().noneMatch(box::intersects);
    }

    /**
     * A word beside a point, where nothing else stands yet: right of it, left, above, below.
     *
     * @param reach distance from the point, pixels
     * @param always whether it is written, to the right, even where all places are taken
     */
    private void named(Graphics2D g, String words, double x, double y, double reach, boolean always) {
        double w = ink.tagBox(g, words, 0, 0).getWidth();
        double up = reach + ink.px(10);
        double[][] places = {
            {x + reach, y},
            {x - reach - w, y},
            {x - w / 2, y - up},
            {x - w / 2, y + up},
            {x + reach, y - up},
            {x - reach - w, y - up},
            {x + reach, y + up},
            {x - reach - w, y + up}
        };
        for (double[] p : places) {
            Rectangle2D box = ink.tagBox(g, words, p[0], p[1]);
            if (free(box) && box.getX() > 0 && box.getMaxX() < width && box.getY() > 0 && box.getMaxY() < height) {
                taken.add(box);
                ink.tag(g, words, p[0], p[1]);
                return;
            }
        }
        if (always) {
            double left = Math.max(ink.px(4), Math.min(width - w - ink.px(4), x + reach));
            double middle = Math.max(ink.px(12), Math.min(height - ink.px(12), y));
            taken.add(ink.tagBox(g, words, left, middle));
            ink.tag(g, words, left, middle);
        }
    }

    /** The outline by which a severity is told without colour: note round, watch diamond, fix triangle, stop octagon. */
    public static Shape severityShape(int severity, double x, double y, double r) {
        if (severity == 0) {
            return new Ellipse2D.Double(x - r, y - r, 2 * r, 2 * r);
        }
        int corners = severity == 1 ? 4 : severity == 2 ? 3 : 8;
        double turn = severity == 3 ? Math.PI / 8 : -Math.PI / 2;
        Path2D path = new Path2D.Double();
        double grow = severity == 2 ? 1.25 : 1.08;
        for (int i = 0; i < corners; i++) {
            double a = turn + 2 * Math.PI * i / corners;
            double px = x + r * grow * Math.cos(a);
            double py = y + r * grow * Math.sin(a) + (severity == 2 ? r * 0.2 : 0);
            if (i == 0) {
                path.moveTo(px, py);
            } else {
                path.lineTo(px, py);
            }
        }
        path.closePath();
        return path;
    }

    /** Colour of a severity; white text on it has a contrast of at least 4.5:1. */
    public static Color severityColour(int severity) {
        return switch (severity) {
            case 3 -> new Color(0xB3121D);
            case 2 -> new Color(0xA84300);
            case 1 -> new Color(0x6E5A00);
            default -> new Color(0x3A5F7D);
        };
    }

    private record Placed(BoardSnapshot.Mark mark, double footX, double footY, double headX, double headY) {}

    /** Where the marks stand: heads beside each other where their places lie close; what finds no room is only listed. */
    private List<Placed> placedMarks() {
        List<BoardSnapshot.Mark> order = new ArrayList<>(board.marks());
        order.sort((a, b) -> Boolean.compare(b.chosen(), a.chosen()));
        double z = camera.fromBelow() ? -board.thicknessMm() : 0;
        List<Placed> placed = new ArrayList<>();
        double[][] ways = {{0, -26}, {-19, -24}, {19, -24}, {-36, -18}, {36, -18}, {0, -48}, {-20, -46}, {20, -46}};
        for (BoardSnapshot.Mark m : order) {
            double[] p = at(m.xMm(), m.yMm(), z);
            if (!inView(p)) {
                continue;
            }
            double r = ink.px(m.chosen() ? 12 : 10);
            for (double[] way : ways) {
                double x = p[0] + ink.px(way[0]);
                double y = p[1] + ink.px(way[1] - (m.chosen() ? 8 : 0));
                Rectangle2D box = new Rectangle2D.Double(x - r, y - r, 2 * r, 2 * r);
                if (free(box)) {
                    taken.add(box);
                    placed.add(0, new Placed(m, p[0], p[1], x, y));
                    break;
                }
            }
        }
        return placed;
    }

    private void marks(Graphics2D g, List<Placed> placed) {
        for (Placed p : placed) {
            BoardSnapshot.Mark m = p.mark();
            double r = ink.px(m.chosen() ? 11 : 9);
            Line2D foot = new Line2D.Double(p.footX(), p.footY(), p.headX(), p.headY());
            g.setColor(ink.plate);
            g.setStroke(ink.stroke(4));
            g.draw(foot);
            g.setColor(severityColour(m.severity()));
            g.setStroke(ink.stroke(2));
            g.draw(foot);
            if (m.chosen()) {
                g.draw(new Ellipse2D.Double(p.footX() - r, p.footY() - r, 2 * r, 2 * r));
            }
            badge(g, ink, m.severity(), m.number(), p.headX(), p.headY(), r);
            if (m.chosen()) {
                ink.tag(g, m.words(), p.headX() + r + ink.px(4), p.headY());
            }
        }
    }

    /** A finding's number in the outline of its severity. */
    static void badge(Graphics2D g, Ink ink, int severity, int number, double x, double y, double r) {
        Shape s = severityShape(severity, x, y, r);
        g.setColor(severityColour(severity));
        g.fill(s);
        g.setColor(Color.WHITE);
        g.setStroke(ink.stroke(1.4));
        g.draw(s);
        g.setFont(ink.small());
        String n = Integer.toString(number);
        double w = g.getFontMetrics().getStringBounds(n, g).getWidth();
        g.drawString(n, (float) (x - w / 2), (float) (y + ink.px(severity == 2 ? 5.5 : 4)));
    }

    /** Pin 1 of named parts: a square with a point, as layouts mark it. */
    private void pinOnes(Graphics2D g) {
        if (camera.fromBelow() && !board.copperDown() && camera.turn() != null) {
            return;
        }
        double z = camera.fromBelow() ? -board.thicknessMm() : 0;
        boolean words = camera.pixelsPerMm(height) > ink.px(9);
        double r = ink.px(5);
        for (BoardSnapshot.Place pin : board.extras().pinOnes()) {
            double[] p = at(pin.xMm(), pin.yMm(), z);
            if (inView(p)) {
                taken.add(new Rectangle2D.Double(p[0] - r, p[1] - r, 2 * r, 2 * r));
            }
        }
        for (BoardSnapshot.Place pin : board.extras().pinOnes()) {
            double[] p = at(pin.xMm(), pin.yMm(), z);
            if (!inView(p)) {
                continue;
            }
            Rectangle2D box = new Rectangle2D.Double(p[0] - r, p[1] - r, 2 * r, 2 * r);
            g.setColor(ink.plate);
            g.setStroke(ink.stroke(4));
            g.draw(box);
            g.setColor(ink.accent);
            g.setStroke(ink.stroke(1.8));
            g.draw(box);
            if (words) {
                named(g, pin.name(), p[0], p[1], r + ink.px(3), false);
            }
        }
    }

    private void swipe(Graphics2D g) {
        OffscreenRenderer.Comparison c = request.comparison();
        if (c == null || c.kind() != OffscreenRenderer.Comparison.Kind.SWIPE) {
            return;
        }
        double x = Math.round(width * Math.max(0, Math.min(1, c.share())));
        g.setColor(ink.plate);
        g.setStroke(ink.stroke(5));
        g.draw(new Line2D.Double(x, 0, x, height));
        g.setColor(ink.accent);
        g.setStroke(ink.stroke(2));
        g.draw(new Line2D.Double(x, 0, x, height));
        g.setFont(ink.small());
        double w = g.getFontMetrics().getStringBounds("base", g).getWidth();
        ink.tag(g, "base", x - w - ink.px(18), height - ink.px(40));
        ink.tag(g, "what if", x + ink.px(8), height - ink.px(40));
    }

    private void scaleBar(Graphics2D g) {
        double perMm = camera.pixelsPerMm(height);
        double mm = Ink.round(ink.px(210) / perMm);
        double w = mm * perMm;
        double x = ink.px(24);
        double y = height - ink.px(26);
        String words = Ink.plainMm(mm)
                + String.format(
                        Locale.ROOT, mm < 0.05 ? " (%.2f thou)" : mm < 2 ? " (%.1f thou)" : " (%.0f thou)", mm / 0.0254)
                + (camera.parallel() ? "" : " at the middle");
        String factor = camera.zFactor() == 1
                ? "Z to scale"
                : "Z drawn " + String.format(Locale.ROOT, "%.0f", camera.zFactor()) + " times as high";
        g.setFont(ink.small());
        double tw = Math.max(
                g.getFontMetrics().getStringBounds(words, g).getWidth(),
                g.getFontMetrics().getStringBounds(factor, g).getWidth());
        ink.plate(g, x - ink.px(12), y - ink.px(42), Math.max(w, tw) + ink.px(24), ink.px(56));
        g.setColor(ink.text);
        g.drawString(words, (float) x, (float) (y - ink.px(9)));
        g.setColor(camera.zFactor() == 1 ? ink.faint : ink.accent);
        g.drawString(factor, (float) x, (float) (y - ink.px(26)));
        for (int i = 0; i < 4; i++) {
            g.setColor(i % 2 == 0 ? ink.text : ink.page);
            g.fill(new Rectangle2D.Double(x + w * i / 4, y, w / 4, ink.px(5)));
        }
        g.setColor(ink.text);
        g.setStroke(ink.stroke(1));
        g.draw(new Rectangle2D.Double(x, y, w, ink.px(5)));
    }

    /** The smallest of 1, 2, 5 times a power of ten that is not below this. */
    private static double roundStep(double least) {
        double p = Math.pow(10, Math.floor(Math.log10(least)));
        double f = least / p;
        return (f <= 1 ? 1 : f <= 2 ? 2 : f <= 5 ? 5 : 10) * p;
    }

    private record Entry(BoardSnapshot.Material material, String words) {}

    private record Swatch(java.awt.Paint paint, String words) {}

    private void legend(Graphics2D g) {
        OffscreenRenderer.Comparison compared = request.comparison();
        if (compared != null && compared.kind() == OffscreenRenderer.Comparison.Kind.DIFFERENCE) {
            swatches(
                    g,
                    List.of(
                            new Swatch(new Color(0xCCCCCC), "copper under both"),
                            new Swatch(new Color(0x5C5C5C), "no copper under either"),
                            new Swatch(stripes(0x00529E, 0x8FCCFF, false), "copper extra under the what-if"),
                            new Swatch(stripes(0xB84700, 0xFFCC80, true), "copper missing under the what-if")));
            return;
        }
        if (look.paint() != Look.Paint.MATERIAL) {
            colourScale(g);
            return;
        }
        List<Entry> entries = new ArrayList<>();
        if (board.copperUp() || board.copperDown()) {
            entries.add(new Entry(
                    BoardSnapshot.Material.FOIL,
                    String.format(Locale.ROOT, "copper foil, %.1f um", conditions.foilMm() * 1000)));
            entries.add(new Entry(BoardSnapshot.Material.FOIL_LEFT, "foil left in a groove"));
        }
        entries.add(
                new Entry(BoardSnapshot.Material.SUBSTRATE, board.substrate().words() + ", groove floor"));
        if (!camera.fromBelow() && !look.lifted()) {
            if (board.tapeMm() > 0) {
                entries.add(new Entry(BoardSnapshot.Material.TAPE, "tape, " + Ink.plainMm(board.tapeMm())));
            }
            entries.add(new Entry(
                    BoardSnapshot.Material.SPOIL_BOARD,
                    board.extras().spoilBoardKnown()
                            ? "spoil board " + Ink.plainMm(board.spoilBoardMm()) + ", also through holes"
                            : "spoil board, thickness not known"));
        }
        List<Swatch> all = new ArrayList<>();
        for (Entry e : entries) {
            all.add(new Swatch(ink.pattern(e.material(), board.substrate()), e.words()));
        }
        if (look.through() > 0 && !camera.fromBelow() && board.copperDown()) {
            all.add(new Swatch(stripes(0x0D1F73, 0xB3D1FF, false), "foil cut on the far face"));
        }
        if (request.highlight() != null) {
            all.add(new Swatch(new Color(0x2C7BE8), "copper that is joined"));
        }
        if (!board.extras().pinOnes().isEmpty()) {
            all.add(new Swatch(ink.accent, "square: pin 1 of a part"));
        }
        swatches(g, all);
    }

    private java.awt.Paint stripes(int a, int b, boolean down) {
        java.awt.image.BufferedImage im =
                new java.awt.image.BufferedImage(8, 8, java.awt.image.BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 8; y++) {
            for (int x = 0; x < 8; x++) {
                im.setRGB(x, y, ((down ? x - y + 8 : x + y) % 8 < 4) ? a : b);
            }
        }
        int grain = ink.grain();
        return new java.awt.TexturePaint(im, new Rectangle2D.Double(0, 0, 8 * grain, 8 * grain));
    }

    private void swatches(Graphics2D g, List<Swatch> entries) {
        g.setFont(ink.small());
        double w = 0;
        for (Swatch e : entries) {
            w = Math.max(w, g.getFontMetrics().getStringBounds(e.words(), g).getWidth());
        }
        double row = ink.px(19);
        double boxW = w + ink.px(50);
        double x = right - boxW - ink.px(12);
        double y = height - ink.px(12) - row * entries.size() - ink.px(12);
        legendTop = y;
        ink.plate(g, x, y, boxW, row * entries.size() + ink.px(12));
        for (int i = 0; i < entries.size(); i++) {
            double cy = y + ink.px(6) + row * i;
            Rectangle2D box = new Rectangle2D.Double(x + ink.px(10), cy + ink.px(3), ink.px(24), ink.px(13));
            g.setPaint(entries.get(i).paint());
            g.fill(box);
            g.setColor(ink.line);
            g.setStroke(ink.stroke(1));
            g.draw(box);
            g.setColor(ink.text);
            g.drawString(entries.get(i).words(), (float) (x + ink.px(41)), (float) (cy + ink.px(14)));
        }
    }

    /** The colour that the shader gives to a share of the scale, for legends. */
    public static Color ramp(double share) {
        double[][] c = {{0.11, 0.09, 0.35}, {0.10, 0.36, 0.52}, {0.18, 0.62, 0.55}, {0.97, 0.93, 0.56}};
        double t = Math.max(0, Math.min(1, share)) * 3;
        int i = Math.min(2, (int) t);
        double f = t - i;
        double[] v = new double[3];
        for (int k = 0; k < 3; k++) {
            v[k] = c[i][k] * (1 - f) + c[i + 1][k] * f;
        }
        return new Color((float) v[0], (float) v[1], (float) v[2]);
    }

    private static final Color[] TOOLS = {
        new Color(0x0072B2), new Color(0xE69F00), new Color(0x009E73), new Color(0xCC79A7),
        new Color(0x56B4E9), new Color(0xD55E00), new Color(0xF0E442), new Color(0x8C8C8C)
    };

    /** The colour of a tool run, by its place in the snapshot. */
    public static Color toolColour(int run) {
        return TOOLS[Math.floorMod(run, TOOLS.length)];
    }

    /** Black or white, whichever stands out more from a ground (WCAG 2.1, relative luminance and contrast). */
    public static Color inkOn(Color ground) {
        double[] c = new double[3];
        float[] rgb = ground.getRGBColorComponents(null);
        for (int i = 0; i < 3; i++) {
            c[i] = rgb[i] <= 0.03928 ? rgb[i] / 12.92 : Math.pow((rgb[i] + 0.055) / 1.055, 2.4);
        }
        double luminance = 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
        return (luminance + 0.05) / 0.05 > 1.05 / (luminance + 0.05) ? Color.BLACK : Color.WHITE;
    }

    private void colourScale(Graphics2D g) {
        g.setFont(ink.small());
        if (look.paint() == Look.Paint.TOOL) {
            double row = ink.px(19);
            int n = board.runs().size();
            double w = 0;
            for (BoardSnapshot.ToolRun r : board.runs()) {
                w = Math.max(w, g.getFontMetrics().getStringBounds(r.words(), g).getWidth());
            }
            w += ink.px(18);
            double x = right - w - ink.px(62);
            double y = height - ink.px(24) - row * n;
            legendTop = y;
            ink.plate(g, x, y, w + ink.px(50), row * n + ink.px(12));
            for (int i = 0; i < n; i++) {
                g.setColor(toolColour(i));
                g.fill(new Rectangle2D.Double(x + ink.px(10), y + ink.px(9) + row * i, ink.px(24), ink.px(13)));
                g.setColor(ink.text);
                g.drawString((i + 1) + "  " + board.runs().get(i).words(), (float) (x + ink.px(41)), (float)
                        (y + ink.px(20) + row * i));
            }
            return;
        }
        double[] range = SceneDrawer.rangeOf(request);
        boolean time = look.paint() == Look.Paint.TIME;
        boolean line = look.paint() == Look.Paint.LINE;
        boolean width = look.paint() == Look.Paint.WIDTH;
        String note =
                switch (look.paint()) {
                    case DEPTH -> "grey: not cut; deeper than the scale: last colour";
                    case FOIL_LEFT -> "grey: not cut; dark grey: no foil left";
                    case MARGIN -> "what Z may lose before foil stays; below 0: foil is left";
                    case WIDTH -> "pale: 1 mm or more; grey: no copper; good to about 0.02 mm";
                    default -> "grey: not cut";
                };
        double w = Math.max(
                ink.px(260), g.getFontMetrics().getStringBounds(note, g).getWidth());
        double x = right - w - ink.px(36);
        double y = height - ink.px(82);
        legendTop = y - ink.px(10);
        ink.plate(g, x - ink.px(24), y - ink.px(10), w + ink.px(48), ink.px(80));
        g.setColor(ink.text);
        g.drawString(look.paint().words() + (time ? ", min:s" : line ? "" : width ? ", mm" : ", um"), (float) x, (float)
                (y + ink.px(6)));
        for (int i = 0; i < 60; i++) {
            g.setColor(ramp((i + 0.5) / 60));
            g.fill(new Rectangle2D.Double(x + w * i / 60, y + ink.px(14), w / 60 + 0.6, ink.px(12)));
        }
        g.setColor(ink.text);
        // Round numbers where the scale counts lengths; quarters where it counts lines or time.
        double unit = time || line || width ? 1 : 1000;
        double step = time || line ? (range[1] - range[0]) / 4 : roundStep((range[1] - range[0]) * unit / 6) / unit;
        double first = time || line ? range[0] : Math.ceil(range[0] / step - 1e-9) * step;
        for (double v = first; step > 0 && v <= range[1] + step * 1e-6; v += step) {
            double at = x + w * (v - range[0]) / (range[1] - range[0]);
            String s = time
                    ? JobScene.clock(v)
                    : String.format(Locale.ROOT, width ? "%.1f" : "%.0f", Math.abs(v) < step / 2 ? 0.0 : v * unit);
            double tw = g.getFontMetrics().getStringBounds(s, g).getWidth();
            g.fill(new Rectangle2D.Double(at - ink.px(0.5), y + ink.px(26), ink.px(1), ink.px(4)));
            g.drawString(s, (float) (at - tw / 2), (float) (y + ink.px(42)));
        }
        g.setColor(ink.faint);
        g.drawString(note, (float) x, (float) (y + ink.px(60)));
    }
}
