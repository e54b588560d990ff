package sprag.bench;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noFields;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import java.io.IOException;
import java.io.InputStream;
import java.lang.module.ModuleDescriptor;
import java.net.URI;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import picocli.CommandLine.Command;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.hal.Loop;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;

/** Who may import whom, read from the compiled classes of all three modules. */
class ArchitectureTest {
    private static final String SUPERVISOR = "sprag.supervisor..";
    private static final String HAL = "sprag.hal..";
    private static final String BENCH = "sprag.bench..";

    private static final JavaClasses ALL = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .withImportOption(location -> !location.contains("-tests.jar"))
            .importPackages("sprag");

    @Test
    void classes_ofAllModules_areSeen() {
        assertTrue(ALL.contain(Supervisor.class) && ALL.contain(Loop.class) && ALL.contain(Sprag.class));
        assertTrue(ALL.size() > 400, ALL.size() + " classes");
    }

    @Test
    void modules_importOneWay() {
        noClasses()
                .that()
                .resideInAPackage(SUPERVISOR)
                .should()
                .dependOnClassesThat(resideInAnyPackage(HAL, BENCH))
                .check(ALL);
        noClasses()
                .that()
                .resideInAPackage(HAL)
                .should()
                .dependOnClassesThat(resideInAPackage(BENCH))
                .check(ALL);
    }

    @Test
    void supervisor_outsideItself_isSeenByItsExportsOnly() throws IOException {
        Set<String> exported = supervisorModule().exports().stream()
                .map(ModuleDescriptor.Exports::source)
                .collect(Collectors.toSet());
        assertEquals(Set.of("sprag.supervisor", "sprag.supervisor.vocabulary", "sprag.supervisor.logic"), exported);
        DescribedPredicate<JavaClass> hidden = resideInAPackage(SUPERVISOR)
                .and(DescribedPredicate.describe("are not exported", c -> !exported.contains(c.getPackageName())));
        noClasses()
                .that()
                .resideOutsideOfPackage(SUPERVISOR)
                .should()
                .dependOnClassesThat(hidden)
                .check(ALL);
    }

    private static ModuleDescriptor supervisorModule() throws IOException {
        String self = Supervisor.class.getResource("Supervisor.class").toString();
        String root = self.substring(0, self.length() - "sprag/supervisor/Supervisor.class".length());
        try (InputStream in = URI.create(root + "module-info.class").toURL().openStream()) {
            return ModuleDescriptor.read(in);
        }
    }

    @Test
    void packages_formNoCircle() {
        slices().assignedFrom(new SliceAssignment() {
                    @Override
                    public SliceIdentifier getIdentifierOf(JavaClass javaClass) {
                        return SliceIdentifier.of(javaClass.getPackageName());
                    }

                    @Override
                    public String getDescription() {
                        return "every package";
                    }
                })
                .should()
                .beFreeOfCycles()
                .check(ALL);
    }

    @Test
    void supervisor_knowsJavaAndItselfOnly() {
        classes()
                .that()
                .resideInAPackage(SUPERVISOR)
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage(
                        SUPERVISOR,
                        "java.lang",
                        "java.lang.annotation",
                        "java.util",
                        "java.util.function",
                        "java.util.stream"))
                .check(ALL);
    }

    @Test
    void supervisor_seesNoClockNoThreadNoChance() {
        noClasses()
                .that()
                .resideInAPackage(SUPERVISOR)
                .should()
                .dependOnClassesThat()
                .belongToAnyOf(
                        Thread.class,
                        ThreadLocal.class,
                        Runtime.class,
                        Process.class,
                        ProcessBuilder.class,
                        Random.class)
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(System.class, "getProperty", String.class)
                .orShould()
                .callMethod(System.class, "getenv", String.class)
                .orShould()
                .callMethod(Math.class, "random")
                .orShould()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .orShould()
                .accessField(System.class, "in")
                .check(ALL);
    }

    /** The last bit of these differs between processors and releases of Java; that of {@link StrictMath}'s does not. */
    @Test
    void supervisorAndCar_computeTheSameOnEveryMachine() {
        Set<String> inexact = Set.of(
                "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "exp", "expm1", "log", "log10", "log1p", "pow",
                "cbrt", "hypot", "sinh", "cosh", "tanh");
        noClasses()
                .that(resideInAnyPackage("sprag.supervisor..", "sprag.bench.car..", "sprag.bench.loop.."))
                .should()
                .callMethodWhere(DescribedPredicate.describe(
                        "an inexact function of Math",
                        call -> call.getTargetOwner().isEquivalentTo(Math.class) && inexact.contains(call.getName())))
                .because("a recording must replay on another machine, and the same run must be the same there")
                .check(ALL);
    }

    @Test
    void supervisor_sharesNothingBetweenThreadsOrVehicles() {
        fields().that()
                .areDeclaredInClassesThat(resideInAPackage(SUPERVISOR))
                .and()
                .areStatic()
                .should()
                .beFinal()
                .check(ALL);
        noFields()
                .that()
                .areDeclaredInClassesThat(resideInAPackage(SUPERVISOR))
                .should()
                .haveModifier(JavaModifier.VOLATILE)
                .check(ALL);
        methods()
                .that()
                .areDeclaredInClassesThat(resideInAPackage(SUPERVISOR))
                .should()
                .notHaveModifier(JavaModifier.SYNCHRONIZED)
                .check(ALL);
    }

    /** The prover recalls what it was told of other counts, and knows only from {@code Tick.lasted} which counts those are. */
    @Test
    void promises_learnTheCountOfTicksFromTickOnly() {
        noClasses()
                .that()
                .resideInAPackage("sprag.bench.evidence.prove.promise")
                .and()
                .doNotBelongToAnyOf(Tick.class)
                .should()
                .callMethod(LogicState.class, "stepTicks")
                .orShould()
                .callMethod(LogicState.class, "pack")
                .orShould()
                .accessField(LogicState.class, "stepTicks")
                .because("Tick.lasted(ticks) also tells for which other counts the answer is the same")
                .check(ALL);
    }

    @Test
    void sprag_isImportedByNone() {
        noClasses()
                .that()
                .doNotBelongToAnyOf(Sprag.class, Rehearsal.class)
                .should()
                .dependOnClassesThat()
                .belongToAnyOf(Sprag.class)
                .check(ALL);
    }

    @Test
    void command_isImportedByItsOwnRoomAndSpragOnly() {
        classes()
                .that()
                .areAnnotatedWith(Command.class)
                .should(new ArchCondition<>("be imported by their own room only") {
                    @Override
                    public void check(JavaClass command, ConditionEvents events) {
                        for (Dependency use : command.getDirectDependenciesToSelf()) {
                            JavaClass user = use.getOriginClass();
                            boolean allowed = user.getPackageName().equals(command.getPackageName())
                                    || user.isEquivalentTo(Sprag.class);
                            if (!allowed) {
                                events.add(SimpleConditionEvent.violated(command, use.getDescription()));
                            }
                        }
                    }
                })
                .check(ALL);
    }
}
