package foilproof.findings;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** This test shows that a check fires just beyond its limit. Each value is a row of the needs and a kind: "A7 kind". */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.METHOD)
public @interface Fires {
    /** Row of the needs, a space, the kind. */
    String[] value();
}
