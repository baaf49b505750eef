package foilproof.app.viewer;

import java.util.List;

/** Two pictures of one place, held against each other pixel by pixel: any two jobs can be compared so. */
final class Comparing {
    private static final int BOTH = 0xCCCCCC;
    private static final int NEITHER = 0x5C5C5C;

    private Comparing() {}

    /**
     * One frame of two.
     *
     * @param before without the what-ifs
     * @param now with them, of the same size
     * @param kind how
     * @param unit pixels that a pixel of a pattern takes
     */
    static Frame frames(Frame before, Frame now, OffscreenRenderer.Comparison.Kind kind, int unit) {
        int w = now.width();
        int[] rgb = new int[now.rgb().length];
        for (int i = 0; i < rgb.length; i++) {
            int x = i % w;
            int a = before.rgb()[i];
            int b = now.rgb()[i];
            rgb[i] = kind == OffscreenRenderer.Comparison.Kind.SWIPE
                    ? 2 * x < w ? a : b
                    : difference(a, b, x / unit, i / w / unit);
        }
        return new Frame(w, now.height(), rgb, now.samples(), before.drawS() + now.drawS());
    }

    /**
     * Foil under both grey, under neither dark; extra foil blue with stripes to the right, missing foil orange with
     * stripes to the left: told apart by direction as well as colour. What is not the blank fades.
     */
    private static int difference(int before, int now, int x, int y) {
        int had = before >>> 24;
        int has = now >>> 24;
        if (Math.min(had, has) < 100) {
            return mixed(now, 0x808080, 0.7);
        }
        double was = Math.max(0, had - 128) / 127.0;
        double is = Math.max(0, has - 128) / 127.0;
        int extra = Math.floorMod(x + y, 8) < 4 ? 0x00529E : 0x8FCCFF;
        int missing = Math.floorMod(x - y, 8) < 4 ? 0xB84700 : 0xFFCC80;
        int same = mixed(NEITHER, BOTH, Math.min(was, is));
        return is > was ? mixed(same, extra, is - was) : mixed(same, missing, was - is);
    }

    private static int mixed(int a, int b, double share) {
        int out = 0;
        for (int shift = 0; shift <= 16; shift += 8) {
            double v = (a >> shift & 255) * (1 - share) + (b >> shift & 255) * share;
            out |= (int) Math.round(v) << shift;
        }
        return out;
    }

    /** What was set, as the picture tells it. */
    static String words(List<String> whatIfs) {
        return whatIfs.isEmpty() ? "" : "; what if: " + String.join(", ", whatIfs);
    }
}
