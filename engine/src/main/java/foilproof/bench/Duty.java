package foilproof.bench;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What a cutter may be used for. A promise of the person: a cutter reserved for copper keeps its edge.
 *
 * @param kind how the job file said it
 * @param works what is allowed
 */
public record Duty(Kind kind, Set<Work> works) {
    /** How the job file said it. */
    public enum Kind {
        /** Anything. */
        ANY,
        /** Isolation, clearing and text, and no deeper than the limits allow. */
        COPPER_ONLY,
        /** The works that are listed. */
        LISTED
    }

    /** Anything. */
    public static final Duty ANY = new Duty(Kind.ANY, EnumSet.allOf(Work.class));

    /** Copper only: isolation, clearing, text. */
    public static final Duty COPPER_ONLY =
            new Duty(Kind.COPPER_ONLY, EnumSet.of(Work.ISOLATION, Work.CLEARING, Work.TEXT));

    public Duty {
        works = Collections.unmodifiableSet(works.isEmpty() ? EnumSet.noneOf(Work.class) : EnumSet.copyOf(works));
    }

    /** The works that are listed, and no other. */
    public static Duty of(Collection<Work> works) {
        return new Duty(Kind.LISTED, works.isEmpty() ? EnumSet.noneOf(Work.class) : EnumSet.copyOf(works));
    }

    /** Whether this work is within the duty. */
    public boolean allows(Work work) {
        return works.contains(work);
    }

    /** Whether the cutter must stay in the copper: said so, or neither boring nor outline is listed. */
    public boolean copperOnly() {
        return kind == Kind.COPPER_ONLY
                || (kind == Kind.LISTED && !works.contains(Work.BORING) && !works.contains(Work.OUTLINE));
    }

    /** Whether its depth is limited as well: only a cutter that is kept for copper was promised that (needs.md C13). */
    public boolean keepsItsDepth() {
        return kind == Kind.COPPER_ONLY;
    }

    /** As a person reads it: "any", "copper only", or the list. */
    public String words() {
        return switch (kind) {
            case ANY -> "any";
            case COPPER_ONLY -> "copper only";
            case LISTED -> works.stream().map(Work::word).collect(Collectors.joining(", "));
        };
    }
}
