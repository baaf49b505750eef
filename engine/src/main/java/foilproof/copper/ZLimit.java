package foilproof.copper;

/**
 * What ends a Z window on one side.
 *
 * @param kind which check raises first beyond it
 * @param eMm the Z error at which it does, + = really deeper, mm
 * @param errorMm how far that may be off, mm
 * @param xMm where, blank's frame; NaN where no place belongs to it
 * @param yMm likewise
 * @param program index of the program whose line is named; -1 for none
 * @param line physical line, from 1; 0 for none
 */
public record ZLimit(Kind kind, double eMm, double errorMm, double xMm, double yMm, int program, int line) {
    /** The checks that bound a Z window, with the kind of finding that each raises. */
    public enum Kind {
        /** Foil stays at the bottom of a groove: t + 5 um is not reached. */
        FOIL_LEFT("foil-left", "foil left in a groove"),
        /** Two pieces, or two nets, become one. */
        NETS_JOINED("short", "a short"),
        /** A piece falls apart (no design known). */
        PIECE_SEVERED("severed-copper", "severed copper"),
        /** A piece vanishes (no design known). */
        PIECE_LOST("severed-copper", "severed copper"),
        /** Two places of one net part. */
        NET_OPEN("open", "an open"),
        /** Copper becomes narrower than it must be. */
        WIDTH("thin-trace", "a trace too thin"),
        /** A cutter kept for copper goes deeper than copper asks. */
        DUTY("duty-broken", "a broken duty");

        private final String key;
        private final String words;

        Kind(String key, String words) {
            this.key = key;
            this.words = words;
        }

        /** The kind of finding, as results name it. */
        public String key() {
            return key;
        }

        /** The same in a sentence. */
        public String words() {
            return words;
        }
    }

    /** A limit without a line of a program. */
    static ZLimit at(Kind kind, double eMm, double errorMm, double xMm, double yMm) {
        return new ZLimit(kind, eMm, errorMm, xMm, yMm, -1, 0);
    }
}
