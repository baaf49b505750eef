package foilproof.house;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.conditions.ArchPredicates.are;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The walls of the engine: package order, no cycles, no world outside, same bytes everywhere. */
class EngineArchitectureTest {
    /** The order of the packages: each may import only those before it. */
    static final List<String> ORDER = List.of(
            "geom",
            "source",
            "language",
            "bench",
            "motion",
            "stock",
            "design",
            "copper",
            "electrical",
            "findings",
            "study",
            "report",
            "dryrun");

    private static final JavaClasses ENGINE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("foilproof");

    @TestFactory
    List<DynamicTest> shouldImportOnlyPackagesThatComeBefore() {
        List<DynamicTest> tests = new ArrayList<>();
        for (int i = 0; i < ORDER.size() - 1; i++) {
            String here = ORDER.get(i);
            String[] later = ORDER.subList(i + 1, ORDER.size()).stream()
                    .map(name -> "foilproof." + name + "..")
                    .toArray(String[]::new);
            tests.add(DynamicTest.dynamicTest(here, () -> noClasses()
                    .that(are(inEngine(here)))
                    .should()
                    .dependOnClassesThat(resideInAnyPackage(later))
                    .allowEmptyShould(true)
                    .check(ENGINE)));
        }
        return tests;
    }

    @Test
    void shouldHaveNoPackageCycles() {
        slices().matching("foilproof.(**)")
                .should()
                .beFreeOfCycles()
                .allowEmptyShould(true)
                .check(ENGINE);
    }

    @Test
    void shouldHoldOnlyThePackagesOfTheDesign() {
        noClasses()
                .that()
                .resideInAPackage("foilproof..")
                .should(new ArchCondition<>("lie in a package that the design does not name") {
                    @Override
                    public void check(JavaClass type, ConditionEvents events) {
                        String[] parts = type.getPackageName().split("\\.");
                        boolean known = parts.length >= 2 && (ORDER.contains(parts[1]) || parts[1].equals("app"));
                        events.add(new SimpleConditionEvent(type, !known, type.getName()));
                    }
                })
                .allowEmptyShould(true)
                .check(ENGINE);
    }

    @Test
    void shouldKnowNoGraphicsLibraryAndNoWindow() {
        noClasses()
                .that(are(engine()))
                .should()
                .dependOnClassesThat(resideInAnyPackage("org.lwjgl..", "org.joml..", "javax.swing..", "com.formdev.."))
                .allowEmptyShould(true)
                .check(ENGINE);
        noClasses()
                .that(are(engine()))
                .and()
                .resideOutsideOfPackage("foilproof.report..")
                .should()
                .dependOnClassesThat(resideInAnyPackage("java.awt..", "javax.imageio.."))
                .allowEmptyShould(true)
                .check(ENGINE);
    }

    @Test
    void shouldKeepJacksonOutOfGeometry() {
        noClasses()
                .that()
                .resideInAnyPackage("foilproof.geom..", "foilproof.stock..", "foilproof.copper..")
                .should()
                .dependOnClassesThat(resideInAnyPackage("com.fasterxml..", "org.tomlj.."))
                .allowEmptyShould(true)
                .check(ENGINE);
    }

    @Test
    void shouldNeitherReadTheClockNorWriteToTheConsoleNorRollUnseededDice() {
        check(
                "read a clock, touch the console, end the process or roll unseeded dice",
                access -> clock(access) || console(access) || dice(access));
    }

    @Test
    void shouldNotFormatOrChangeCaseByTheLocaleOfTheMachine() {
        check("depend on the default locale or character set", EngineArchitectureTest::locale);
    }

    @Test
    void shouldTakeTranscendentalFunctionsFromStrictMath() {
        check(
                "call a Math function whose last bit differs between processors (use StrictMath)",
                access -> access.getTargetOwner().getFullName().equals("java.lang.Math")
                        && LOOSE_MATH.contains(access.getTarget().getName()));
    }

    private static final Set<String> LOOSE_MATH = Set.of(
            "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "exp", "expm1", "log", "log1p", "log10", "pow",
            "cbrt", "sinh", "cosh", "tanh", "hypot");

    private interface AccessTest {
        boolean forbids(JavaAccess<?> access);
    }

    private static void check(String what, AccessTest test) {
        noClasses()
                .that(are(engine()))
                .should(new ArchCondition<>(what) {
                    @Override
                    public void check(JavaClass type, ConditionEvents events) {
                        for (JavaAccess<?> access : type.getAccessesFromSelf()) {
                            if (test.forbids(access)) {
                                events.add(SimpleConditionEvent.satisfied(access, access.getDescription()));
                            }
                        }
                    }
                })
                .allowEmptyShould(true)
                .check(ENGINE);
    }

    private static boolean clock(JavaAccess<?> access) {
        String owner = access.getTargetOwner().getFullName();
        String name = access.getTarget().getName();
        return owner.equals("java.lang.System")
                        && Set.of("currentTimeMillis", "nanoTime").contains(name)
                || owner.startsWith("java.time.") && (name.equals("now") || owner.equals("java.time.Clock"))
                || owner.equals("java.util.Date") && name.equals("<init>") && arity(access) == 0
                || owner.equals("java.util.Calendar") && name.equals("getInstance");
    }

    private static boolean console(JavaAccess<?> access) {
        String owner = access.getTargetOwner().getFullName();
        String name = access.getTarget().getName();
        return owner.equals("java.lang.System")
                        && Set.of("out", "err", "in", "console", "exit", "getenv", "setOut", "setErr")
                                .contains(name)
                || owner.equals("java.lang.Runtime") && Set.of("exit", "halt").contains(name)
                || name.equals("printStackTrace") && arity(access) == 0;
    }

    private static boolean dice(JavaAccess<?> access) {
        String owner = access.getTargetOwner().getFullName();
        String name = access.getTarget().getName();
        boolean making = name.equals("<init>") && arity(access) == 0;
        return making && (owner.equals("java.util.Random") || owner.equals("java.util.SplittableRandom"))
                || owner.equals("java.util.concurrent.ThreadLocalRandom")
                || owner.equals("java.security.SecureRandom")
                || owner.equals("java.lang.Math") && name.equals("random")
                || owner.equals("java.util.UUID") && name.equals("randomUUID")
                || owner.equals("java.util.Collections") && name.equals("shuffle") && arity(access) == 1;
    }

    private static boolean locale(JavaAccess<?> access) {
        if (!(access instanceof JavaCall<?> call)) {
            return false;
        }
        String owner = call.getTargetOwner().getFullName();
        String name = call.getTarget().getName();
        List<String> types = call.getTarget().getRawParameterTypes().stream()
                .map(JavaClass::getFullName)
                .toList();
        boolean firstIsLocale = !types.isEmpty() && types.get(0).equals("java.util.Locale");
        if (owner.equals("java.lang.String")) {
            return Set.of("toLowerCase", "toUpperCase", "getBytes").contains(name) && types.isEmpty()
                    || name.equals("format") && !firstIsLocale
                    || name.equals("formatted")
                    || name.equals("<init>") && types.equals(List.of("[B"));
        }
        if (Set.of("java.io.PrintStream", "java.io.PrintWriter", "java.util.Formatter")
                .contains(owner)) {
            return Set.of("printf", "format").contains(name) && !firstIsLocale
                    || owner.equals("java.util.Formatter")
                            && name.equals("<init>")
                            && !types.contains("java.util.Locale");
        }
        return owner.equals("java.util.Locale") && name.equals("getDefault")
                || owner.startsWith("java.text.")
                        && name.startsWith("get")
                        && name.endsWith("Instance")
                        && types.isEmpty()
                || owner.equals("java.text.DecimalFormat") && name.equals("<init>") && types.size() < 2
                || owner.equals("java.text.SimpleDateFormat") && name.equals("<init>") && types.size() < 2
                || owner.equals("java.io.InputStreamReader") && name.equals("<init>") && types.size() < 2
                || owner.equals("java.io.OutputStreamWriter") && name.equals("<init>") && types.size() < 2
                || owner.equals("java.io.FileReader") && name.equals("<init>") && types.size() < 2
                || owner.equals("java.io.FileWriter") && name.equals("<init>") && types.size() < 2;
    }

    private static int arity(JavaAccess<?> access) {
        return access instanceof JavaCall<?> call
                ? call.getTarget().getRawParameterTypes().size()
                : -1;
    }

    private static DescribedPredicate<JavaClass> engine() {
        return DescribedPredicate.describe(
                "in the engine", type -> ORDER.stream().anyMatch(name -> within(type, name)));
    }

    private static DescribedPredicate<JavaClass> inEngine(String name) {
        return DescribedPredicate.describe("in " + name, type -> within(type, name));
    }

    private static boolean within(JavaClass type, String name) {
        return type.getPackageName().equals("foilproof." + name)
                || type.getPackageName().startsWith("foilproof." + name + ".");
    }
}
