package foilproof.app.viewer;

import foilproof.findings.Finding;
import foilproof.findings.Severity;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What a picture's marks mean, in whole sentences, in a column beside the board: it covers nothing of it. */
final class FindingColumn {
    /** Below this width, in pixels of the plain design, a picture has no room for a column. */
    private static final double LEAST_PICTURE = 760;

    private static final double WIDTH = 336;

    private record Entry(int number, Finding finding) {}

    private final Ink ink;
    private final List<Entry> entries;
    private final String head;
    private final boolean whole;

    private FindingColumn(Ink ink, List<Entry> entries, String head, boolean whole) {
        this.ink = ink;
        this.entries = entries;
        this.head = head;
        this.whole = whole;
    }

    /**
     * The column of a picture, or null where it has nothing to say or no room.
     *
     * @param findings all of the job, as listed
     * @param side the side that is shown
     * @param near the finding that is looked at, told in full with what to do; null for all
     * @param picturePixels width of the whole picture
     * @param sides how many sides the job has
     */
    static @Nullable FindingColumn of(
            Ink ink, List<Finding> findings, int side, @Nullable Finding near, int picturePixels, int sides) {
        List<Entry> entries = new ArrayList<>();
        for (int i = 0; i < findings.size(); i++) {
            Finding f = findings.get(i);
            if (near == null ? f.side() == null || f.side() == side : f == near) {
                entries.add(new Entry(i + 1, f));
            }
        }
        if (entries.isEmpty() || picturePixels < ink.px(LEAST_PICTURE)) {
            return null;
        }
        String head = near != null ? "The finding" : sides > 1 ? "Findings of side " + side : "Findings";
        return new FindingColumn(ink, entries, head, near != null);
    }

    /** Width, pixels. */
    int widthPixels() {
        return (int) Math.round(ink.px(WIDTH));
    }

    /** Paints its ground to the right of this place, over the picture's whole height. */
    void ground(Graphics2D g, int left, int height) {
        g.setColor(ink.page);
        g.fillRect(left, 0, widthPixels(), height);
        g.setColor(ink.line);
        g.setStroke(ink.stroke(1));
        g.draw(new Line2D.Double(left + 0.5, 0, left + 0.5, height));
    }

    /** Writes it, down to this height. */
    void paint(Graphics2D g, int left, double height) {
        Ink.smooth(g);
        double x = left + ink.px(14);
        double most = widthPixels() - ink.px(28);
        g.setColor(ink.text);
        g.setFont(ink.bold());
        g.drawString(head, (float) x, (float) ink.px(31));
        g.setFont(ink.small());
        g.setColor(ink.faint);
        g.drawString(whole ? "" : counts(), (float) x, (float) ink.px(49));
        double y = ink.px(whole ? 46 : 62);
        double last = height - ink.px(14);
        for (int i = 0; i < entries.size(); i++) {
            double room = last - (i + 1 < entries.size() ? ink.px(18) : 0);
            double next = entry(g, entries.get(i), x, y, most, room);
            if (next < 0) {
                g.setFont(ink.small());
                g.setColor(ink.faint);
                g.drawString(
                        String.format(Locale.ROOT, "%d more; dryrun lists all.", entries.size() - i), (float) x, (float)
                                (y + ink.px(14)));
                return;
            }
            y = next;
        }
    }

    private String counts() {
        List<String> parts = new ArrayList<>();
        for (Severity s : Severity.values()) {
            long n = entries.stream().filter(e -> e.finding().severity() == s).count();
            if (n > 0) {
                parts.add(n + " " + s.name().toLowerCase(Locale.ROOT));
            }
        }
        return String.join(", ", parts);
    }

    /** One finding; gives back where the next begins, or -1 where it does not fit. */
    private double entry(Graphics2D g, Entry e, double x, double y, double most, double last) {
        Finding f = e.finding();
        double indent = ink.px(30);
        double row = ink.px(15.5);
        g.setFont(ink.small());
        List<String> lines = new ArrayList<>(Ink.broken(g, f.message(), most - indent));
        int doFrom = lines.size();
        if (whole) {
            lines.addAll(Ink.broken(g, "Do: " + f.doThis(), most - indent));
            lines.addAll(Ink.broken(g, where(f), most - indent));
        }
        double end = y + ink.px(20) + row * lines.size() + ink.px(8);
        if (end > last) {
            return -1;
        }
        int severity = Severity.NOTE.ordinal() - f.severity().ordinal();
        OverlayPainter.badge(g, ink, severity, e.number(), x + ink.px(10), y + ink.px(9), ink.px(9));
        g.setColor(ink.text);
        g.setFont(ink.bold());
        String severityWord = f.severity().name().toLowerCase(Locale.ROOT);
        g.drawString(severityWord + ": " + f.kind(), (float) (x + indent), (float) (y + ink.px(14)));
        g.setFont(ink.small());
        for (int i = 0; i < lines.size(); i++) {
            g.setColor(i < doFrom ? ink.text : ink.faint);
            g.drawString(lines.get(i), (float) (x + indent), (float) (y + ink.px(20) + row * (i + 0.75)));
        }
        return end;
    }

    private static String where(Finding f) {
        StringBuilder s = new StringBuilder();
        if (f.program() != null) {
            s.append(f.program());
            if (f.line() != null) {
                s.append(", line ").append(f.line());
            }
            s.append(". ");
        }
        double[] at = f.atMm();
        if (at != null) {
            s.append(String.format(Locale.ROOT, "X %.2f, Y %.2f mm. ", at[0], at[1]));
        }
        s.append("Certainty: ").append(f.certainty().word()).append(".");
        return s.toString();
    }
}
