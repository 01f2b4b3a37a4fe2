package org.rejoin.console;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import org.jspecify.annotations.NullMarked;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The arrows between modules and packages, held as tests. Sees all three modules. */
class ArchitectureTest {

    private static final String[] PURE = {
        "org.rejoin.bridge.geo..",
        "org.rejoin.bridge.chart",
        "org.rejoin.bridge.clearance..",
        "org.rejoin.bridge.route..",
        "org.rejoin.bridge.tracker.."
    };

    /** Each room of the console, and the rooms that it may look into; only {@code cli} looks into all. */
    private static final Map<String, Set<String>> ROOMS = Map.ofEntries(
            room("words"),
            room("json"),
            room("log", "json", "words"),
            room("draw", "json", "words"),
            room("table", "json", "words"),
            room("chart", "json", "words"),
            room("watch", "json", "words"),
            room("grade", "json", "words"),
            room("why", "json", "log", "words"),
            room("best", "json", "words"),
            room("brief", "draw", "json", "words"),
            room("lesson", "grade"),
            room("recording"),
            room("practice", "lesson"),
            room("flight", "grade", "json", "lesson", "log", "recording", "words"),
            room("report", "best", "draw", "flight", "grade", "json", "lesson", "log", "recording", "table", "words"),
            room("speech"),
            room("page", "draw", "flight", "grade", "json", "lesson", "log", "recording", "report", "speech", "words"),
            room("live", "drill", "flight", "grade", "json", "lesson", "log", "page", "recording", "speech", "words"),
            room("skill"),
            room("drill", "best", "book", "grade", "json", "lesson", "practice", "recording", "skill", "words"),
            room("book", "recording"),
            room("xapi", "book", "recording"),
            room("door", "book", "recording"),
            room(
                    "room",
                    "best",
                    "book",
                    "door",
                    "drill",
                    "flight",
                    "grade",
                    "json",
                    "lesson",
                    "page",
                    "practice",
                    "recording",
                    "speech",
                    "words"));

    private static JavaClasses ours;

    private static Map.Entry<String, Set<String>> room(String name, String... lookedInto) {
        return Map.entry(name, Set.of(lookedInto));
    }

    @BeforeAll
    static void read() {
        ours = new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                // The bridge's flights for tests come as a jar.
                .withImportOption(location -> !location.contains("-tests.jar"))
                .importPackages("org.rejoin");
    }

    @Test
    void allThreeModulesAreSeen() {
        assertThat(ours.stream().map(JavaClass::getPackageName))
                .contains("org.rejoin.protocol", "org.rejoin.bridge.geo", "org.rejoin.console.cli");
        assertThat(ours).hasSizeGreaterThan(150);
    }

    @Test
    void arrowsPointOneWay() {
        layeredArchitecture()
                .consideringOnlyDependenciesInLayers()
                .withOptionalLayers(true)
                .layer("protocol")
                .definedBy("org.rejoin.protocol..")
                .layer("geo")
                .definedBy("org.rejoin.bridge.geo..")
                .layer("chart")
                .definedBy("org.rejoin.bridge.chart..")
                .layer("clearance")
                .definedBy("org.rejoin.bridge.clearance..")
                .layer("route")
                .definedBy("org.rejoin.bridge.route..")
                .layer("tracker")
                .definedBy("org.rejoin.bridge.tracker..")
                .layer("flight")
                .definedBy("org.rejoin.bridge.flight")
                .layer("feed")
                .definedBy("org.rejoin.bridge.feed")
                .layer("learn")
                .definedBy("org.rejoin.bridge.learn")
                .layer("session")
                .definedBy("org.rejoin.bridge")
                .layer("console")
                .definedBy("org.rejoin.console..")
                .whereLayer("console")
                .mayNotBeAccessedByAnyLayer()
                .whereLayer("session")
                .mayOnlyBeAccessedByLayers("console")
                // The feed knows no flight, and the flight knows no feed: the console joins them.
                .whereLayer("feed")
                .mayOnlyBeAccessedByLayers("console")
                .whereLayer("learn")
                .mayOnlyBeAccessedByLayers("console")
                // What the tracker finds is read from the record.
                .whereLayer("tracker")
                .mayOnlyBeAccessedByLayers("session")
                .whereLayer("flight")
                .mayOnlyBeAccessedByLayers("tracker", "session", "console")
                .whereLayer("route")
                .mayOnlyBeAccessedByLayers("flight", "tracker", "session", "console")
                .whereLayer("clearance")
                // The amended route carries the clearance it follows from; the tracker logs its words.
                .mayOnlyBeAccessedByLayers("route", "flight", "tracker", "session", "console")
                .whereLayer("chart")
                .mayOnlyBeAccessedByLayers("clearance", "route", "flight", "tracker", "session", "console")
                .check(ours);
    }

    @Test
    void packagesHaveNoCycles() {
        slices().matching("org.rejoin.(bridge.*)..").should().beFreeOfCycles().check(ours);
        slices().matching("org.rejoin.(console.*)..").should().beFreeOfCycles().check(ours);
        slices().matching("org.rejoin.(*)..").should().beFreeOfCycles().check(ours);
    }

    @Test
    void pureCodeKnowsNoFileNoSocketNoClockNoThread() {
        noClasses()
                .that()
                .resideInAnyPackage(PURE)
                .and()
                .doNotHaveSimpleName("MagneticModel")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "java.io..", "java.nio.file..", "java.net..", "java.util.concurrent..", "io.netty..")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.time.Clock")
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .check(ours);
    }

    @Test
    void eachRoomOfTheConsoleLooksOnlyWhereItMay() {
        String console = "org.rejoin.console.";
        Map<String, Set<String>> looked = new HashMap<>();
        for (JavaClass each : ours) {
            String from = roomOf(each, console);
            if (from.isEmpty() || from.equals("cli")) {
                continue;
            }
            assertThat(ROOMS).as("the rooms, with that of %s", each.getName()).containsKey(from);
            looked.computeIfAbsent(from, room -> new HashSet<>());
            each.getDirectDependenciesFromSelf().stream()
                    .map(dependency -> dependency.getTargetClass())
                    .filter(target -> !roomOf(target, console).isEmpty())
                    .filter(target -> !roomOf(target, console).equals(from))
                    .forEach(target -> {
                        looked.get(from).add(roomOf(target, console));
                        assertThat(ROOMS.get(from))
                                .as("rooms that %s may look into, for %s", each.getName(), target.getName())
                                .contains(roomOf(target, console));
                    });
        }
        assertThat(ROOMS).as("no arrow is drawn that is not there").isEqualTo(looked);
    }

    private static String roomOf(JavaClass of, String console) {
        return of.getPackageName().startsWith(console) ? of.getPackageName().substring(console.length()) : "";
    }

    @Test
    void nothingOnTheWayOfAFlightKnowsHowAFeedIsLearnt() {
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rejoin.bridge.learn")
                .and()
                .haveSimpleNameNotStartingWith("FeedLearn")
                .and()
                .doNotHaveSimpleName("LearnReport")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.rejoin.bridge.learn")
                .check(ours);
    }

    @Test
    void onlyFlightsTheRoomWhoWatchesAndTheCommandLineHearAFeed() {
        noClasses()
                .that()
                .resideOutsideOfPackages(
                        "org.rejoin.bridge.feed",
                        "org.rejoin.console.flight",
                        "org.rejoin.console.live",
                        "org.rejoin.console.room",
                        "org.rejoin.console.watch",
                        "org.rejoin.console.cli")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.rejoin.bridge.feed")
                .check(ours);
    }

    /** Who is followed is decided once; from then on the sorter gives samples to the flights and the flights to sessions. */
    @Test
    void theWayOfADatagramAndOfAClearanceAreThoseOfTheDevelopersPage() {
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.bridge.feed")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "org.rejoin.bridge",
                        "org.rejoin.bridge.chart..",
                        "org.rejoin.bridge.clearance..",
                        "org.rejoin.bridge.route..",
                        "org.rejoin.bridge.tracker..",
                        "org.rejoin.bridge.flight..")
                .check(ours);
        // What is in force is told by the record: nobody but the session asks the tracker or works a clearance out in
        // flight.
        noClasses()
                .that()
                .resideInAnyPackage(
                        "org.rejoin.console.grade..", "org.rejoin.console.log..", "org.rejoin.console.why..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.rejoin.bridge", "org.rejoin.bridge.feed..", "org.rejoin.bridge.tracker..")
                .check(ours);
        // A brief needs no flight.
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.console.brief..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.rejoin.bridge", "org.rejoin.bridge.flight..", "org.rejoin.bridge.feed..")
                .check(ours);
    }

    @Test
    void wordsAreSaidByPureCode() {
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.console.words")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.io..", "java.nio.file..", "java.net..", "com.fasterxml..", "io.netty..")
                .check(ours);
    }

    @Test
    void librariesStayWhereTheyBelong() {
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rejoin.bridge.geo..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("net.sf.geographiclib..")
                .check(ours);
        noClasses()
                .that()
                .resideOutsideOfPackages("org.rejoin.bridge.feed..", "org.rejoin.console.page..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("io.netty..")
                .check(ours);
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.bridge..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("com.fasterxml.jackson..", "org.yaml..")
                .check(ours);
        // One reader of what people write by hand; only the text of a lesson is changed in place besides.
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rejoin.protocol.yaml..")
                .and()
                .doNotHaveSimpleName("LessonText")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.yaml..")
                .check(ours);
    }

    @Test
    void theDatabaseIsTheRecordBooksAlone() {
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rejoin.console.book..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.sql..", "org.sqlite..")
                .check(ours);
        noClasses()
                .that()
                .resideInAnyPackage(
                        "org.rejoin.console.book..", "org.rejoin.console.door..", "org.rejoin.console.xapi..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.rejoin.console.cli..", "org.rejoin.console.page..", "io.netty..")
                .check(ours);
    }

    /** Estimates know marks alone, and the reader of their file; drills know no page and no command, and no drill is judged by a code of its own. */
    @Test
    void skillsKnowNothingOfDrillsAndDrillsNothingOfPages() {
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.console.skill..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(besides("org.rejoin.console.skill"))
                .check(ours);
        noClasses()
                .that()
                .resideInAnyPackage("org.rejoin.console.skill..", "org.rejoin.console.drill..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.fasterxml.jackson.dataformat.yaml..")
                .check(ours);
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.console.drill..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "org.rejoin.console.cli..",
                        "org.rejoin.console.page..",
                        "org.rejoin.console.room..",
                        "org.rejoin.console.door..",
                        "org.rejoin.console.xapi..",
                        "io.netty..")
                .check(ours);
        noClasses()
                .that()
                .resideInAnyPackage(
                        "org.rejoin.console.book..", "org.rejoin.console.grade..", "org.rejoin.console.practice..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.rejoin.console.skill..", "org.rejoin.console.drill..")
                .check(ours);
    }

    private static String[] besides(String own) {
        return ours.stream()
                .map(JavaClass::getPackageName)
                .filter(name ->
                        name.startsWith("org.rejoin") && !name.equals(own) && !name.equals("org.rejoin.protocol.yaml"))
                .distinct()
                .toArray(String[]::new);
    }

    @Test
    void theRoomIsOpenedByTheCommandLineAlone() {
        noClasses()
                .that()
                .resideOutsideOfPackages("org.rejoin.console.room..", "org.rejoin.console.cli..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.rejoin.console.room..")
                .check(ours);
        noClasses()
                .that()
                .resideInAPackage("org.rejoin.console.page..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.rejoin.console.book..", "org.rejoin.console.door..")
                .check(ours);
    }

    @Test
    void onlyTheCommandLinePrintsAndExits() {
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rejoin.console.cli..")
                .should(ACCESS_STANDARD_STREAMS)
                .check(ours);
        noClasses()
                .that()
                .resideOutsideOfPackage("org.rejoin.console.cli..")
                .should()
                .callMethod(System.class, "exit", int.class)
                .check(ours);
    }

    @Test
    void everyPackageRefusesNullByDefault() {
        classes()
                .that()
                .resideOutsideOfPackage("org.rejoin.bridge.clearance.grammar")
                .should(new ArchCondition<>("be in a null-marked package") {
                    @Override
                    public void check(JavaClass item, ConditionEvents events) {
                        if (!item.getPackage().isAnnotatedWith(NullMarked.class)) {
                            events.add(SimpleConditionEvent.violated(
                                    item, item.getName() + " is in no null-marked package"));
                        }
                    }
                })
                .check(ours);
    }
}
