package foilproof.findings;

import foilproof.design.LayerImage;
import foilproof.design.Netlist;
import foilproof.electrical.NetVerdict;
import foilproof.electrical.NetlistCheck;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Netlist and layer images that do not belong together (J3): the netlist's nets judged on the copper as drawn. */
final class NetlistDiffers implements Check {
    private static final int MOST = 6;
    /** How far a pin's net is looked for round the netlist's place, mm. */
    private static final double NEAR_MM = 0.05;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.NETLIST_DIFFERS);
    }

    @Override
    public List<String> needsRows() {
        return List.of("J3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        ReadDesign read = x.design().read();
        Netlist netlist = read.netlist();
        if (netlist == null || netlist.points().isEmpty() || read.layers().isEmpty()) {
            return;
        }
        List<String> differs = new ArrayList<>(names(read, netlist));
        boolean bothFaces = read.layers().size() == 2 || !x.job().blank().bothSides();
        boolean whole = read.layers().values().stream().noneMatch(LayerImage::cutShort);
        if (!whole) {
            out.notChecked(
                    "whether netlist and layer image agree", "a layer image ends without M02: it may be cut short");
        }
        if (bothFaces && whole) {
            NetVerdict verdict = NetlistCheck.compare(netlist, read.layers(), read.drill());
            for (NetVerdict.Short s : verdict.shorts()) {
                differs.add("the layer image joins " + s.placeA().label() + " (" + s.netA() + ") and "
                        + s.placeB().label() + " (" + s.netB() + "), the netlist keeps them apart");
            }
            for (NetVerdict.Open o : verdict.opens()) {
                if (!o.missing().isEmpty()) {
                    differs.add("the layer image has no copper at "
                            + o.missing().stream()
                                    .map(p -> p.label())
                                    .distinct()
                                    .limit(3)
                                    .collect(Collectors.joining(", "))
                            + " of net " + o.net());
                } else if (!o.onlyVias()) {
                    differs.add("the netlist joins " + o.groups().get(0).get(0).label() + " and "
                            + o.groups().get(1).get(0).label() + " in net " + o.net()
                            + ", the layer image keeps them apart");
                }
            }
        }
        if (differs.isEmpty()) {
            return;
        }
        int more = differs.size() - Math.min(MOST, differs.size());
        out.add(Finding.of(Kinds.NETLIST_DIFFERS, Severity.WATCH, Certainty.GEOMETRY)
                .measured(Measured.exact("disagreements", differs.size(), "places"))
                .says("Netlist and layer image disagree: "
                        + differs.stream().limit(MOST).collect(Collectors.joining("; "))
                        + (more > 0 ? "; and " + more + " more" : "")
                        + ". One of them is of another revision, or from another board.")
                .doThis("Export netlist and layer images again, together, from one revision.")
                .build());
    }

    /** Pins whose net has another name in the layer image. */
    private static List<String> names(ReadDesign read, Netlist netlist) {
        List<String> out = new ArrayList<>();
        for (Netlist.TestPoint p : netlist.points()) {
            if (p.kind() == Netlist.Kind.TOOLING_HOLE || p.single()) {
                continue;
            }
            for (LayerImage layer : read.layers().values()) {
                String drawn = padNet(layer, p.xMm(), p.yMm());
                if (drawn != null && !shortened(drawn).equals(shortened(p.net()))) {
                    String pin = p.reference() != null && p.pin() != null
                            ? p.reference() + "-" + p.pin()
                            : String.format(Locale.ROOT, "(%.2f, %.2f)", p.xMm(), p.yMm());
                    out.add(pin + " is in net " + p.net() + " of the netlist and in " + drawn + " of the layer image");
                    break;
                }
            }
        }
        return out;
    }

    private static @org.jspecify.annotations.Nullable String padNet(LayerImage layer, double xMm, double yMm) {
        for (var pad : layer.padsNear(xMm, yMm, NEAR_MM)) {
            if (Math.abs(pad.xMm() - xMm) <= NEAR_MM && Math.abs(pad.yMm() - yMm) <= NEAR_MM && pad.net() != null) {
                return pad.net();
            }
        }
        return null;
    }

    /** A netlist has room for 14 letters of a name. */
    private static String shortened(String name) {
        String upper = name.toUpperCase(Locale.ROOT);
        return upper.length() > 14 ? upper.substring(0, 14) : upper;
    }
}
