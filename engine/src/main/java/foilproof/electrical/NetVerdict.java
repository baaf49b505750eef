package foilproof.electrical;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Which nets are whole and apart.
 *
 * @param nets every net, in the order given
 * @param opens nets in two or more groups, or with places that have no copper
 * @param shorts pairs of nets that are joined: for k nets in one, the k - 1 pairs whose places lie closest
 * @param handJoins joins that were taken as made by hand: declared ones and pins through both faces
 */
public record NetVerdict(List<NetState> nets, List<Open> opens, List<Short> shorts, List<HandJoin> handJoins) {
    /** Copies the lists. */
    public NetVerdict {
        nets = List.copyOf(nets);
        opens = List.copyOf(opens);
        shorts = List.copyOf(shorts);
        handJoins = List.copyOf(handJoins);
    }

    /**
     * A net as it came out.
     *
     * @param net the net
     * @param groups number of groups that copper and hand-made joins leave its places in
     * @param missing places without copper
     * @param shortedWith names of the nets joined with it
     */
    public record NetState(IntendedNets.Net net, int groups, int missing, List<String> shortedWith) {
        /** Copies the list. */
        public NetState {
            shortedWith = List.copyOf(shortedWith);
        }

        /** True where the net is in one group, has all its copper and touches no other. */
        public boolean good() {
            return groups <= 1 && missing == 0 && shortedWith.isEmpty();
        }
    }

    /**
     * A net that is not whole.
     *
     * @param net its name
     * @param groups places that hang together, largest group first
     * @param missing places that have no copper at all
     * @param viasToJoin vias without a declared join whose joining would make the net whole; empty where joining vias
     *     does not cure it
     */
    public record Open(String net, List<List<NetPlace>> groups, List<NetPlace> missing, List<NetPlace> viasToJoin) {
        /** Copies the lists. */
        public Open {
            groups = List.copyOf(groups);
            missing = List.copyOf(missing);
            viasToJoin = List.copyOf(viasToJoin);
        }

        /** True where the board is as meant and only wires in vias are not declared. */
        public boolean onlyVias() {
            return !viasToJoin.isEmpty();
        }
    }

    /**
     * Two nets on one piece of copper, or joined by hand.
     *
     * @param netA name
     * @param netB name
     * @param placeA the place of A closest to B
     * @param placeB the place of B closest to A
     * @param byHand whether no copper joins the two, only what hands solder
     * @param join the declared join between the two; null where none goes straight from one to the other
     */
    public record Short(
            String netA,
            String netB,
            NetPlace placeA,
            NetPlace placeB,
            boolean byHand,
            @Nullable HandJoin join) {}

    /**
     * A join that hands make.
     *
     * @param kind words: "wire", "via wire", "pin", "pin or via" where no file tells which
     * @param xMm where, design coordinates, mm
     * @param yMm where
     * @param net net at its first end, or an empty string where it meets none
     */
    public record HandJoin(String kind, double xMm, double yMm, String net) {}
}
