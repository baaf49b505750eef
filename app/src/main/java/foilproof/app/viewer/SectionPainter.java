package foilproof.app.viewer;

import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Draws a section as vectors: layers, what was cut away, measures with their error, the cutter's silhouette. */
public final class SectionPainter {
    private final BoardSnapshot board;
    private final BoardSnapshot.Conditions conditions;
    private final Ink ink;

    /**
     * What is drawn into which box.
     *
     * @param section the section
     * @param fromMm left end shown, distance along the section, mm
     * @param toMm right end shown, mm
     * @param lowMm lower end shown, mm above the nominal foil top
     * @param highMm upper end shown, mm
     * @param title what it is
     * @param measureAtMm the groove nearest to this distance is measured, NaN for none
     * @param profileMm outline of the cutter (radius, height, ...), or null
     * @param cutterAtMm where the cutter's axis stands, distance along the section, mm
     * @param cutterTipMm where its tip stands, mm above the nominal foil top
     */
    public record Panel(
            Section section,
            double fromMm,
            double toMm,
            double lowMm,
            double highMm,
            String title,
            double measureAtMm,
            double @Nullable [] profileMm,
            double cutterAtMm,
            double cutterTipMm) {}

    /** For one board. */
    public SectionPainter(BoardSnapshot board, BoardSnapshot.Conditions conditions, boolean dark, double scale) {
        this.board = board;
        this.conditions = conditions;
        ink = new Ink(dark, scale);
    }

    /** Where things fall in one panel. */
    private record Map(double x, double y, double w, double h, double from, double to, double low, double high) {
        double px(double along) {
            return x + (along - from) / (to - from) * w;
        }

        double py(double z) {
            return y + (high - z) / (high - low) * h;
        }
    }

    /** Draws a panel into a box of pixels. */
    public void paint(Graphics2D g, Panel p, double x, double y, double w, double h) {
        Ink.smooth(g);
        double left = ink.px(64);
        double top = ink.px(30);
        Map m = new Map(
                x + left,
                y + top,
                w - left - ink.px(16),
                h - top - ink.px(34),
                p.fromMm(),
                p.toMm(),
                p.lowMm(),
                p.highMm());
        double factor = (m.h() / (m.high() - m.low())) / (m.w() / (m.to() - m.from()));
        g.setFont(ink.bold());
        g.setColor(ink.text);
        g.drawString(p.title(), (float) m.x(), (float) (y + ink.px(17)));
        double tw = g.getFontMetrics().getStringBounds(p.title(), g).getWidth();
        g.setFont(ink.small());
        g.setColor(Math.abs(factor - 1) < 0.05 ? ink.faint : ink.accent);
        String times = String.format(Locale.ROOT, factor < 10 ? "%.1f" : "%.0f", factor);
        String words = Math.abs(factor - 1) < 0.05 ? "Z to scale" : "Z drawn " + times + " times as high";
        double room = m.w() - tw - ink.px(16);
        if (g.getFontMetrics().getStringBounds(words, g).getWidth() > room) {
            words = Math.abs(factor - 1) < 0.05 ? "to scale" : "Z x " + times;
        }
        if (g.getFontMetrics().getStringBounds(words, g).getWidth() <= room + ink.px(8)) {
            g.drawString(words, (float) (m.x() + tw + ink.px(10)), (float) (y + ink.px(17)));
        }
        Shape old = g.getClip();
        g.clip(new Rectangle2D.Double(m.x(), m.y(), m.w(), m.h()));
        layers(g, p.section(), m);
        if (p.profileMm() != null) {
            cutter(g, p, m);
        }
        if (!Double.isNaN(p.measureAtMm())) {
            measures(g, p, m);
        }
        g.setClip(old);
        axes(g, m);
    }

    private void layers(Graphics2D g, Section s, Map m) {
        double spoil = board.spoilTopMm();
        fill(g, s, m, BoardSnapshot.Material.SPOIL_BOARD, -1e9, spoil);
        fill(g, s, m, BoardSnapshot.Material.TAPE, spoil, -board.thicknessMm());
        double t = conditions.foilMm();
        double farTop = -board.thicknessMm() + (board.copperDown() ? t : 0);
        if (board.copperDown()) {
            fill(g, s, m, BoardSnapshot.Material.FAR_FOIL, -board.thicknessMm(), farTop);
        }
        fillUnderSurface(g, s, m, BoardSnapshot.Material.SUBSTRATE, farTop, board.copperUp() ? t : 0, 1e9);
        if (board.copperUp()) {
            fillUnderSurface(g, s, m, BoardSnapshot.Material.FOIL, Double.NaN, 0, t);
        }
        g.setColor(ink.text);
        g.setStroke(ink.stroke(1.3));
        Path2D line = new Path2D.Double();
        for (int i = 0; i < s.zMm().length; i++) {
            double along = s.lengthMm() * i / (s.zMm().length - 1);
            if (i == 0) {
                line.moveTo(m.px(along), m.py(s.zMm()[i]));
            } else {
                line.lineTo(m.px(along), m.py(s.zMm()[i]));
            }
        }
        g.draw(line);
    }

    /** Between two fixed heights, but not above what is left. */
    private void fill(Graphics2D g, Section s, Map m, BoardSnapshot.Material material, double low, double high) {
        if (high <= low) {
            return;
        }
        strip(g, s, m, material, i -> new double[] {
            Math.max(
                    material == BoardSnapshot.Material.FAR_FOIL ? Math.max(low, s.undersideMm()[i]) : low, m.low() - 1),
            material == BoardSnapshot.Material.SPOIL_BOARD || s.onBlank()[i] ? Math.min(high, s.zMm()[i]) : -1e9
        });
    }

    /** From a fixed floor (or, where that is no number, from thickMm under the surface) up to skipMm under the surface. */
    private void fillUnderSurface(
            Graphics2D g, Section s, Map m, BoardSnapshot.Material material, double floor, double skip, double thick) {
        strip(g, s, m, material, i -> {
            if (!s.onBlank()[i]) {
                return new double[] {0, -1e9};
            }
            double top = s.surfaceMm()[i] - skip;
            double bottom = Math.max(s.undersideMm()[i], Double.isNaN(floor) ? s.surfaceMm()[i] - thick : floor);
            return new double[] {bottom, Math.min(top, s.zMm()[i])};
        });
    }

    private interface Ends {
        double[] at(int sample);
    }

    private void strip(Graphics2D g, Section s, Map m, BoardSnapshot.Material material, Ends ends) {
        g.setPaint(ink.pattern(material, board.substrate()));
        int n = s.zMm().length;
        double step = s.lengthMm() / (n - 1);
        Path2D upper = new Path2D.Double();
        boolean open = false;
        double[] lows = new double[n];
        int start = 0;
        for (int i = 0; i <= n; i++) {
            double[] e = i < n ? ends.at(i) : new double[] {0, -1e9};
            if (e[1] > e[0]) {
                lows[i] = e[0];
                if (!open) {
                    upper = new Path2D.Double();
                    upper.moveTo(m.px((i - 0.5) * step), m.py(e[1]));
                    start = i;
                    open = true;
                }
                upper.lineTo(m.px(i * step), m.py(e[1]));
            } else if (open) {
                upper.lineTo(m.px((i - 0.5) * step), m.py(ends.at(i - 1)[1]));
                upper.lineTo(m.px((i - 0.5) * step), m.py(lows[i - 1]));
                for (int k = i - 1; k >= start; k--) {
                    upper.lineTo(m.px(k * step), m.py(lows[k]));
                }
                upper.lineTo(m.px((start - 0.5) * step), m.py(lows[start]));
                upper.closePath();
                g.fill(upper);
                open = false;
            }
        }
    }

    private void cutter(Graphics2D g, Panel p, Map m) {
        double[] profile = p.profileMm();
        if (profile == null) {
            return;
        }
        Path2D path = new Path2D.Double();
        for (int side = 0; side < 2; side++) {
            for (int k = 0; k < profile.length; k += 2) {
                int i = side == 0 ? profile.length - 2 - k : k;
                double r = side == 0 ? -profile[i] : profile[i];
                double px = m.px(p.cutterAtMm() + r);
                double py = m.py(p.cutterTipMm() + profile[i + 1]);
                if (side == 0 && k == 0) {
                    path.moveTo(px, py);
                } else {
                    path.lineTo(px, py);
                }
            }
        }
        g.setColor(new java.awt.Color(ink.accent.getRed(), ink.accent.getGreen(), ink.accent.getBlue(), 38));
        g.fill(path);
        g.setColor(ink.accent);
        g.setStroke(ink.dashes(1.6));
        g.draw(path);
    }

    private void measures(Graphics2D g, Panel p, Map m) {
        Section.Groove groove = p.section().grooveNear(p.measureAtMm(), conditions.foilMm());
        if (groove == null) {
            return;
        }
        double error = cellMm() / 2;
        double s = surfaceAt(p.section(), groove.fromMm());
        double y = m.py(s) - ink.px(16);
        measure(g, m, m.px(groove.fromMm()), m.px(groove.toMm()), y, label("foil top", groove.topWidthMm(), error, m));
        if (Double.isNaN(groove.bottomWidthMm())) {
            double left = conditions.foilMm() - groove.depthMm();
            tag(
                    g,
                    m,
                    left > 0
                            ? String.format(Locale.ROOT, "not through: %.1f um of foil left", left * 1000)
                            : "through; a wall lies beyond this section",
                    m.px(groove.toMm()) + ink.px(8),
                    m.py(s - groove.depthMm()) + ink.px(8));
        } else {
            double yb = m.py(s - conditions.foilMm()) + ink.px(12);
            measure(
                    g,
                    m,
                    m.px(groove.bottomFromMm()),
                    m.px(groove.bottomToMm()),
                    yb,
                    label("foil bottom", groove.bottomWidthMm(), error, m));
        }
        tag(
                g,
                m,
                label("depth", groove.depthMm(), TileAtlas.STEP_MM, m),
                m.px(groove.toMm()) + ink.px(10),
                (m.py(s) + m.py(s - groove.depthMm())) / 2 + ink.px(24));
    }

    private double cellMm() {
        return board.runs().isEmpty() ? 0.01 : board.runs().get(0).tiles().cellMm();
    }

    /** In a narrow panel the number alone; the words beside the panel say the rest. */
    private String label(String name, double mm, double error, Map m) {
        return m.w() < ink.px(480) ? String.format(Locale.ROOT, "%.3f mm", mm) : name + " " + value(mm, error);
    }

    private static String value(double mm, double error) {
        return String.format(Locale.ROOT, "%.3f mm (%.1f thou) +/- %.3f mm", mm, mm / 0.0254, error);
    }

    private static double surfaceAt(Section s, double along) {
        int i = (int) Math.round(along / s.lengthMm() * (s.surfaceMm().length - 1));
        return s.surfaceMm()[Math.max(0, Math.min(s.surfaceMm().length - 1, i))];
    }

    /** A tag that stays within its panel. */
    private void tag(Graphics2D g, Map m, String words, double x, double y) {
        g.setFont(ink.small());
        double w = g.getFontMetrics().getStringBounds(words, g).getWidth() + ink.px(12);
        ink.tag(g, words, Math.max(m.x(), Math.min(x, m.x() + m.w() - w)), Math.min(y, m.y() + m.h() - ink.px(10)));
    }

    private void measure(Graphics2D g, Map m, double x0, double x1, double y, String words) {
        g.setColor(ink.accent);
        g.setStroke(ink.stroke(1.4));
        g.draw(new Line2D.Double(x0, y, x1, y));
        for (double x : new double[] {x0, x1}) {
            g.draw(new Line2D.Double(x, y - ink.px(5), x, y + ink.px(5)));
        }
        tag(g, m, words, Math.max(x0, x1) + ink.px(8), y);
    }

    private void axes(Graphics2D g, Map m) {
        g.setColor(ink.line);
        g.setStroke(ink.stroke(1));
        g.draw(new Rectangle2D.Double(m.x(), m.y(), m.w(), m.h()));
        g.setFont(ink.small());
        double stepX = step((m.to() - m.from()) * ink.px(74) / m.w());
        for (double v = Math.ceil(m.from() / stepX - 1e-9) * stepX; v <= m.to() + 1e-9; v += stepX) {
            double x = m.px(v);
            g.setColor(ink.line);
            g.draw(new Line2D.Double(x, m.y() + m.h(), x, m.y() + m.h() + ink.px(4)));
            g.setColor(ink.faint);
            // One unit and as many decimals along the whole axis.
            String form = stepX < 0.0099 ? "%.3f mm" : stepX < 0.099 ? "%.2f mm" : stepX < 0.99 ? "%.1f mm" : "%.0f mm";
            center(
                    g,
                    String.format(Locale.ROOT, form, Math.abs(v) < stepX / 2 ? 0.0 : v),
                    x,
                    m.y() + m.h() + ink.px(17));
        }
        double stepZ = step((m.high() - m.low()) * ink.px(26) / m.h());
        for (double v = Math.ceil(m.low() / stepZ - 1e-9) * stepZ; v <= m.high() + 1e-9; v += stepZ) {
            double y = m.py(v);
            g.setColor(ink.line);
            g.draw(new Line2D.Double(m.x() - ink.px(4), y, m.x(), y));
            g.setColor(ink.faint);
            String s = String.format(Locale.ROOT, stepZ < 0.01 ? "%.3f" : stepZ < 0.1 ? "%.2f" : "%.1f", v + 0.0);
            s = s.replaceAll("^-(0\\.0+)$", "$1");
            double tw = g.getFontMetrics().getStringBounds(s, g).getWidth();
            g.drawString(s, (float) (m.x() - tw - ink.px(8)), (float) (y + ink.px(4)));
        }
        g.drawString("Z, mm", (float) (m.x() - ink.px(58)), (float) (m.y() - ink.px(6)));
    }

    /** The smallest round length that is not below this, mm. */
    private static double step(double leastMm) {
        double r = Ink.round(leastMm);
        double[] next = {1, 2, 5, 10};
        for (double f : next) {
            double p = Math.pow(10, Math.floor(Math.log10(r * 1.0000001)));
            if (f * p >= leastMm * 0.999) {
                return f * p;
            }
        }
        return r * 10;
    }

    private void center(Graphics2D g, String words, double x, double y) {
        double w = g.getFontMetrics().getStringBounds(words, g).getWidth();
        g.drawString(words, (float) (x - w / 2), (float) y);
    }
}
