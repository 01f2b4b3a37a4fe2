package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.rejoin.console.cli.Ran.run;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.brief.Brief;
import org.rejoin.console.brief.BriefText;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.live.FlightView;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** The program is a good guest of the terminal: what it prints, where, and what it leaves alone. */
class MannersTest {

    @TempDir
    Path folder = Path.of("");

    @Test
    void aCommandIsFoundByTheNameOfItsClass() {
        Rejoin.whole()
                .getSubcommands()
                .forEach((name, command) -> assertThat(Rejoin.asked(name, "--help"))
                        .as(name)
                        .isEqualTo(List.of(command.getCommand().getClass())));
        assertThat(Rejoin.asked("brif")).hasSize(Rejoin.whole().getSubcommands().size());
    }

    /** Passed over, a pilot would wait for a voice or for being heard, and nothing would say why. */
    @ParameterizedTest
    @CsvSource({
        "fly, --hear",
        "fly, --keep-sound",
        "fly, --words-a-minute=100",
        "listen, --voice=slt",
        "listen, --page-wait",
        "listen, --page-linger=5"
    })
    void whatIsForAPageIsRefusedWithoutOne(String command, String option) {
        Ran said = run(command, "radial-outbound", option);
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains(option.replaceFirst("=.*", "") + " is for a page: add --page");
    }

    @Test
    void thePilotsPageIsCalledSo() {
        assertThat(run("fly", "--help").out() + run("listen", "--help").out())
                .contains("for instructor and pilot")
                .doesNotContainIgnoringCase("student");
    }

    @Test
    void theListOfLessonsIsJsonWhereItIsAskedFor() throws IOException {
        Ran said = run("fly", "--list", "--json");
        JsonNode lessons = said.json();
        assertThat(said.exit()).isZero();
        assertThat(lessons)
                .allSatisfy(each -> assertThat(each.get("title").asText()).isNotBlank());
        assertThat(lessons.findValuesAsText("lesson"))
                .containsExactly(
                        "radial-outbound", "radial-inbound", "heading-to-airway", "arc-to-airway", "hold-at-fix");
    }

    @Test
    void whatIsWrongIsSaidWithWhatWouldBeRight() {
        assertThat(run("@bad/nosuch").err())
                .startsWith("rejoin: there is no file bad/nosuch (@FILE stands for the words of a file)")
                .hasLineCount(1);
        Ran elsewhere = run(
                "room",
                "--home",
                folder.resolve("home").toString(),
                "--port",
                "0",
                "--page",
                "0",
                "--page-bind",
                "192.0.2.9");
        assertThat(elsewhere.exit()).isEqualTo(2);
        assertThat(elsewhere.err())
                .contains("192.0.2.9 is no address of this machine; --page-bind takes one of: ")
                .contains("127.0.0.1")
                .doesNotContain("--page PORT");
    }

    @Test
    void aRefusalOfBriefIsJsonWhereTheAnswerWouldBe() throws IOException {
        Path chart = folder.resolve("chart.yaml");
        assertThat(run("chart", "new", chart.toString()).exit()).isZero();
        Ran said = run(
                "brief",
                "--json",
                "--chart",
                chart.toString(),
                "--filed",
                "XAAA DCT AAA V31 BBB DCT XBBB",
                "--at",
                "38.1,-49.9",
                "--clearance",
                "fly heading 100, intercept the ZZZ 250 radial, join V31, then as filed");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.json().at("/error/code").asText()).isEqualTo("UNKNOWN_STATION");
        assertThat(said.err()).startsWith("UNKNOWN_STATION");
        Ran usage = run("brief", "--json");
        assertThat(usage.json().at("/error/code").asText()).isEqualTo("BAD_USAGE");
        assertThat(run("brief").out()).isEmpty();
    }

    /** One object of one form, wherever JSON can be asked for: the exit code and the line for people stay as they are. */
    @ParameterizedTest
    @CsvSource({
        "debrief nothere --json, BAD_INPUT",
        "fly nothere --json, BAD_INPUT",
        "fly --rate -3 --json, BAD_USAGE",
        "listen nothere --json, BAD_INPUT",
        "chart nothere --json, BAD_INPUT",
        "attempts --home nothere --json, BAD_INPUT",
        "drill make --chart nothere --json, BAD_INPUT",
        "feed check nothere --json, BAD_INPUT",
        "lesson check nothere --json, BAD_USAGE",
    })
    void badInputIsOneObjectOfJsonWhereverJsonIsAskedFor(String words, String code) throws IOException {
        Ran said = run(words.split(" "));
        assertThat(said.exit()).as(said.err()).isEqualTo(2);
        assertThat(said.out()).hasLineCount(1);
        JsonNode error = said.json().path("error");
        assertThat(error.path("code").asText()).isEqualTo(code);
        assertThat(error.path("text").asText()).isNotBlank();
        assertThat(said.err())
                .hasLineCount(1)
                .startsWith("rejoin: ")
                .contains(error.path("text").asText());
        assertThat(run(words.replace(" --json", "").split(" ")).out()).isEmpty();
    }

    @Test
    void whatCannotBeWrittenIsRemembered() {
        StandardOutput out = new StandardOutput(new OutputStream() {
            @Override
            public void write(int octet) throws IOException {
                throw new IOException("No space left on device");
            }
        });
        PrintWriter writer = out.writer();
        writer.println("anything");
        writer.flush();
        assertThat(out.trouble()).isEqualTo("No space left on device");
    }

    @Test
    void theFirstStepsAreFiveLines() {
        assertThat(Rejoin.FIRST_STEPS)
                .hasSize(5)
                .allSatisfy(line -> assertThat(line.length()).isLessThan(100));
        assertThat(run().out()).as("not a terminal: the help").contains("Usage: rejoin");
    }

    @Test
    void completionAndManualPageKnowEveryCommand() {
        String completion = run("completion").out();
        String man = run("man").out();
        assertThat(man).startsWith(".TH REJOIN 1");
        CommandLine program = Rejoin.whole();
        program.getSubcommands().forEach((name, sub) -> {
            assertThat(completion).contains("rejoin_" + name);
            assertThat(man).contains(".SS " + name);
            sub.getCommandSpec().options().stream()
                    .filter(option -> !option.usageHelp() && !option.versionHelp())
                    .forEach(option ->
                            assertThat(man).contains(option.longestName().replace("-", "\\-")));
        });
        assertThat(man).contains(".SS feed learn", ".SS chart new", ".SS lesson check");
    }

    @ParameterizedTest
    @CsvSource({
        "Linux, /h/.config/rejoin/settings.yaml",
        "Mac OS X, /h/Library/Application Support/rejoin/settings.yaml",
    })
    void settingsAreInThePlatformsPlace(String system, String place) {
        assertThat(SettingsFile.place(Map.of("HOME", "/h")::get, system)).contains(Path.of(place));
        assertThat(SettingsFile.place(Map.<String, String>of()::get, system)).isEmpty();
    }

    @Test
    void theEnvironmentMovesTheSettings() {
        assertThat(SettingsFile.place(Map.of("HOME", "/h", "XDG_CONFIG_HOME", "/c")::get, "Linux"))
                .contains(Path.of("/c/rejoin/settings.yaml"));
        assertThat(SettingsFile.place(Map.of("APPDATA", "/a")::get, "Windows 11"))
                .contains(Path.of("/a/rejoin/settings.yaml"));
    }

    @Test
    void aSettingIsTakenUnlessTheOptionIsTyped() throws Exception {
        Path file = Files.writeString(
                folder.resolve("settings.yaml"), "feed watch:\n  port: 03017\nlisten:\n  port: 4000\n");
        CommandLine program = Rejoin.whole();
        SettingsFile settings = SettingsFile.read(file, program);
        program.setDefaultValueProvider(settings);
        CommandLine.ParseResult read = program.parseArgs("feed", "watch");
        FeedWatch watch =
                (FeedWatch) read.subcommand().subcommand().commandSpec().userObject();
        assertThat(watch.port.port).isEqualTo(3017);
        assertThat(read.subcommand().subcommand().hasMatchedOption("--port")).isFalse();
        CommandLine.ParseResult typed = program.parseArgs("feed", "watch", "--port", "5");
        assertThat(((FeedWatch) typed.subcommand().subcommand().commandSpec().userObject()).port.port)
                .isEqualTo(5);
        assertThat(String.join("\n", settings.lines())).contains("listen:", "  port: 4000");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "listn: {port: 1} | settings.yaml:1: unknown name \"listn\" in the settings; did you mean listen?",
                "listen: {prt: 1} | settings.yaml:1: unknown name \"prt\" in listen; did you mean port?",
                "listen: 3 | settings.yaml:1: listen must be a mapping",
            })
    void aSettingThatMeansNothingIsSaidWithItsPlace(String text, String said) throws IOException {
        Path file = Files.writeString(folder.resolve("settings.yaml"), text);
        assertThatThrownBy(() -> SettingsFile.read(file, Rejoin.whole()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(said);
    }

    /** Nobody looks into a file for what he has not typed. */
    @Test
    void aWrongValueOfTheSettingsIsSaidToComeFromThem() throws Exception {
        Path file = Files.writeString(folder.resolve("settings.yaml"), "fly: {hz: 900}\nlisten: {port: x}\n");
        CommandLine program = Rejoin.whole();
        SettingsFile settings = SettingsFile.read(file, program);
        Map<String, CommandLine> commands = program.getSubcommands();
        CommandLine.Model.CommandSpec fly =
                Objects.requireNonNull(commands.get("fly")).getCommandSpec();
        CommandLine.Model.CommandSpec listen =
                Objects.requireNonNull(commands.get("listen")).getCommandSpec();
        assertThat(settings.source(
                        "--port x is not a whole number; write for example 12", listen, "listen", "arc-to-airway"))
                .isEqualTo(" (from " + file + ")");
        assertThat(settings.source(
                        "--port y is not a whole number; write for example 12", listen, "listen", "--port=y"))
                .isEmpty();
        assertThat(settings.source("--hz 900: 0.2 to 200 would be right", fly, "fly"))
                .isEqualTo(" (from " + file + ")");
        assertThat(settings.source("--rate 0: more than 0, up to 1000 would be right", fly, "fly"))
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly --page=x | rejoin: --page x is not a port, 0 to 65535",
                "listen arc-to-airway --page= | rejoin: --page  is not a port, 0 to 65535",
                "fly --page=99999 | rejoin: --page 99999 is not a port, 0 to 65535",
                "@nosuch | there is no file nosuch (@FILE stands for the words of a file)",
                "feed learn --out x.yaml --seconds -1 | rejoin: --seconds -1: more than 0 would be right",
                "fly --rate 0 | rejoin: --rate 0: more than 0, up to 1000 would be right",
                "qqq | rejoin: there is no command 'qqq'",
            })
    void whatIsWrongIsSaidOfWhatWasTyped(String words, String said) {
        Ran refused = run(words.split(" ", -1));
        assertThat(refused.exit()).isEqualTo(2);
        assertThat(refused.err()).contains(said).doesNotContain("did you mean", "no lesson");
    }

    @Test
    void aLessonWhoseClearanceCannotBeIssuedWhereItIsDueIsNoSoundLesson() throws Exception {
        Path lesson = HoldBehind.lesson(folder);
        Ran checked = run("lesson", "check", lesson.toString());
        assertThat(checked.exit()).isEqualTo(2);
        assertThat(checked.err())
                .contains(
                        "hold.yaml: the clearance \"fly heading 110",
                        "cannot be issued where it is due, after 10 s at \"38.182,-49.773\"",
                        "PTL066005, where to hold, lies behind where its radial is met")
                .doesNotContain("CANNOT_BE_WORKED_OUT");
        Files.writeString(lesson, Files.readString(lesson).replaceFirst("say: .*}", "say: \"direct PTL\"}"));
        Ran warned = run("lesson", "check", lesson.toString());
        assertThat(warned.exit()).as(warned.err()).isZero();
        assertThat(warned.out())
                .contains("warning: clearance 1, at 00:10.0: the clearance does not say how the route goes on")
                .doesNotContain("Nothing found against it.");
    }

    /** What is to be typed next can be copied, blanks in a name or not. */
    @Test
    void theNextCommandIsSaidAsAShellTakesIt() {
        Path file = folder.resolve("m\u00fd file.yaml");
        assertThat(run("chart", "new", file.toString()).out()).endsWith("rejoin chart check \"" + file + "\"\n");
        Path lesson = folder.resolve("my lesson.yaml");
        assertThat(run("lesson", "new", lesson.toString()).out())
                .contains("rejoin lesson check \"" + lesson + "\", then rejoin fly \"" + lesson + "\"");
        Path drill = folder.resolve("drill-1.yaml");
        assertThat(run("drill", "make", "--out", drill.toString()).out())
                .contains(
                        "in your simulator with: rejoin listen " + drill + "; see it flown with: rejoin fly " + drill);
    }

    @Test
    void newFilesAreSoundAndNeverReplaceOnes() throws Exception {
        Path lesson = folder.resolve("mine.yaml");
        assertThat(run("lesson", "new", lesson.toString()).exit()).isZero();
        Ran checked = run("lesson", "check", lesson.toString());
        assertThat(checked.exit()).isZero();
        assertThat(checked.out()).doesNotContain("note:").contains("Nothing found against it.");
        assertThat(run("chart", folder.resolve("my-chart.yaml").toString()).out())
                .contains("Nothing odd.", "No problems.");
        assertThat(run("fly", lesson.toString(), "--hz", "1").out()).contains("amendment complete", "standard met");
        Files.writeString(lesson, "mine");
        Ran again = run("lesson", "new", lesson.toString());
        assertThat(again.exit()).isEqualTo(2);
        assertThat(again.err()).contains("exists already");
        assertThat(lesson).content().isEqualTo("mine");
    }

    /** A place is written with a blank for the degrees where a terminal has no sign for them, never with a question mark. */
    @ParameterizedTest
    @CsvSource({"US-ASCII, N38 12.000' to-do \"Sao\" ... ?", "ISO-8859-1, N38\u00b012.000' to-do \"S\u00e3o\" ... ?"})
    void whatATerminalCannotShowIsWrittenInItsOwnLetters(String charset, String shown) {
        ByteArrayOutputStream terminal = new ByteArrayOutputStream();
        Charset letters = Charset.forName(charset);
        PrintWriter out = new StandardOutput(terminal).writer(letters);
        out.printf("N38%s12.000' to%sdo %s", "\u00b0", "\u2013", "\u201cS\u00e3o\u201d ");
        out.append('\u2026').print(" \u6f22");
        out.flush();
        assertThat(terminal.toString(letters)).isEqualTo(shown);
    }

    @Test
    void anArgumentMayStandInAFile() throws Exception {
        Path words = Files.writeString(folder.resolve("list.txt"), "--list\n--json\n");
        Ran said = run("fly", "@" + words);
        assertThat(said.exit()).isZero();
        assertThat(said.json()).hasSizeGreaterThan(3);
        assertThat(run("--help").out()).contains("@FILE");
    }

    /** By the sequences of ECMA-48: no wrapping while it is drawn, the rest of the row cleared, and never a new row. */
    @Test
    void theStatusLineStaysOneAtAnyWidth() {
        String text =
                "03:17.3  on heading 110, 0.42 NM right of the course, 2.1 NM to go, turn left in 8 s at the lead";
        String drawn = FlightView.status(text, 0, false);
        assertThat(drawn)
                .isEqualTo("\r\u001b[?7l" + text + "\u001b[K\u001b[?7h")
                .doesNotContain("\n");
        // Where those are not known it ends before the last column, and covers the one before.
        String plain = FlightView.status(text, 90, true);
        assertThat(plain).startsWith("\r03:17.3").doesNotContain("\u001b", "\n").hasSize(1 + 90);
        assertThat(plain.stripTrailing()).hasSizeLessThanOrEqualTo(1 + 79);
    }

    @Test
    void theFoldersOfAUserAreThoseOfHisShell() {
        assertThat(HomeOption.user("Linux", Map.of("HOME", "/h"), "/u")).isEqualTo(Path.of("/h"));
        assertThat(HomeOption.user("Linux", Map.of("HOME", " "), "/u")).isEqualTo(Path.of("/u"));
        assertThat(HomeOption.user("Mac OS X", Map.of(), "/u")).isEqualTo(Path.of("/u"));
        assertThat(HomeOption.user("Windows 11", Map.of("HOME", "/h"), "/u")).isEqualTo(Path.of("/u"));
    }

    @Test
    void aNameThatTheLocaleDoesNotKnowIsSaidInPlainWords() {
        assertThat(run("fly", "--out", "flown\0x").err())
                .startsWith("rejoin: --out \"flown\0x\" has letters")
                .doesNotContain("java");
    }

    /** Sentences end where the terminal does; the table of the legs alone keeps its columns. */
    @ParameterizedTest
    @CsvSource({"60", "80", "100"})
    void aBriefIsAsWideAsTheTerminal(int width) throws Exception {
        Lesson lesson = LessonReader.read("radial-outbound");
        Situation situation = new Situation(
                new Position(38.2, -49.92),
                OptionalDouble.of(6000),
                140,
                Optional.empty(),
                lesson.wind(),
                LocalDate.of(2026, 6, 1));
        Brief brief = Brief.of(
                lesson.chart(),
                lesson.filed().text(),
                lesson.amendments().get(0).say(),
                Optional.empty(),
                situation,
                List.of());
        assertThat(BriefText.lines(brief, true, width).stream().filter(line -> !line.matches("  [A-Z]{2}  .*")))
                .hasSizeGreaterThan(50)
                .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(width));
    }
}
