package foilproof.design;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a layer image says about one of its objects. None of it changes the image.
 *
 * @param nets names of the nets the object belongs to (TO.N): empty where the file does not say; the one name
 *     {@code N/C} for a pad of its own; the empty string where the file says that it belongs to none
 * @param reference reference of the part (TO.P, TO.C), null where not said
 * @param pin pin of the part (TO.P), null where not said
 * @param function aperture function (TA.AperFunction), e.g. ComponentPad, ViaPad, Conductor; null where not said
 * @param others every other attribute by name, without the leading point of standard names
 */
public record ObjectAttributes(
        List<String> nets,
        @Nullable String reference,
        @Nullable String pin,
        @Nullable String function,
        Map<String, String> others) {
    /** Nothing said. */
    public static final ObjectAttributes NONE = new ObjectAttributes(List.of(), null, null, null, Map.of());

    /** Copies the collections. */
    public ObjectAttributes {
        nets = List.copyOf(nets);
        others = Map.copyOf(others);
    }

    /** The same object within a block whose flash has attributes of its own: they hold for what the object leaves open. */
    ObjectAttributes within(ObjectAttributes block) {
        if (block.equals(NONE)) {
            return this;
        }
        Map<String, String> all = new HashMap<>(block.others);
        all.putAll(others);
        boolean part = reference != null;
        return new ObjectAttributes(
                nets.isEmpty() ? block.nets : nets,
                part ? reference : block.reference,
                part ? pin : block.pin,
                function != null ? function : block.function,
                all);
    }

    /** The one net that the object belongs to, or null where none or several are named, or {@code N/C}. */
    public @Nullable String net() {
        return nets.size() == 1 && !nets.get(0).isEmpty() && !nets.get(0).equals("N/C") ? nets.get(0) : null;
    }

    /** True where the file says that the pad stands alone ({@code N/C}). */
    public boolean single() {
        return nets.size() == 1 && nets.get(0).equals("N/C");
    }
}
