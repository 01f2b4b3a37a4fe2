package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The scripts of both systems do the same. Those of Windows are read here line by line, for this build seldom runs there;
 * what they rest on is in the help of its command processor (cmd /?, set /?, for /?, call /?).
 */
class PackagingScriptsTest {

    private static final Path PACKAGING = Path.of("src", "main", "packaging");

    /** Names that programs look for in their environment; upper and lower case are the same there. */
    private static final Set<String> TAKEN = Set.of(
            "home",
            "path",
            "temp",
            "tmp",
            "user",
            "username",
            "userprofile",
            "appdata",
            "localappdata",
            "comspec",
            "os",
            "classpath",
            "java_home",
            "java_tool_options",
            "jdk_java_options",
            "systemroot",
            "lang",
            "display");

    private static String all(Pattern pattern, String text) {
        return String.join(
                " ", pattern.matcher(text).results().map(each -> each.group(1)).toList());
    }

    private static List<String> found(String pattern, String text) {
        return Pattern.compile(pattern)
                .matcher(text)
                .results()
                .map(MatchResult::group)
                .toList();
    }

    /** With the ends of lines of this page; the command processor of Windows does not find each label without its own. */
    private static String read(Path script) throws Exception {
        String text = Files.readString(script);
        if (script.toString().endsWith(".cmd")) {
            assertThat(text.replace("\r\n", ""))
                    .as("%s: each line ends with CR LF", script)
                    .doesNotContain("\n", "\r");
            return text.replace("\r\n", "\n");
        }
        return text;
    }

    private static String read(String script) throws Exception {
        return read(PACKAGING.resolve(script));
    }

    @Test
    void bothBuildsAreOneCallOfTheBuildTool() throws Exception {
        Pattern call = Pattern.compile("(mvn .*)");
        String unix = all(call, read(Path.of("..", ".mvn", "image")));
        String image = read(Path.of("..", ".mvn", "image.cmd"));
        assertThat(unix).isEqualTo(all(call, image)).contains("-Pimage");
        assertThat(image).endsWith("exit /b %ERRORLEVEL%\n");
    }

    /** The same options of the virtual machine, for the same commands. */
    @Test
    void bothStartTheProgramAlike() throws Exception {
        String unix = read("rejoin");
        String windows = read("rejoin.cmd");
        Pattern options = Pattern.compile("(-X(?:log|X):[+A-Za-z]+(?:=[a-z0-9:]+)?)");
        List<String> common =
                List.of("-Xlog:disable", "-Xlog:all=error:stderr", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC");
        assertThat(all(options, unix).split(" ")).containsAll(common);
        assertThat(all(options, windows).split(" ")).containsAll(common);
        String brief = all(Pattern.compile("\n    ([a-z |]+) \\| help \\| --\\* \\| ''\\)"), unix)
                .replace(" | ", " ");
        assertThat(brief).startsWith("brief ");
        assertThat(windows).contains("in (" + brief + " help --").contains("if \"%~1\"==\"\" set");
        // The archive is made of the same flight.
        assertThat(found("fly --hz 1 --json", unix)).hasSize(1);
        assertThat(found("fly --hz 1 --json", read("make-archive.cmd"))).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"rejoin.cmd", "make-archive.cmd"})
    void aScriptOfWindowsTakesNoNameOfTheEnvironmentAndQuotesEachPath(String script) throws Exception {
        String text = read(script);
        List<String> names = new ArrayList<>();
        for (String set : found("(?i)set \"?[a-z]+(?==)", text)) {
            names.add(set.replaceFirst("(?i)set \"?", "").toLowerCase(Locale.ROOT));
        }
        assertThat(names).isNotEmpty().doesNotContainAnyElementsOf(TAKEN);
        for (String line : text.lines().filter(each -> !each.startsWith("rem ")).toList()) {
            // Outside quotes a blank, & or ) of a folder's name would end the word or the block.
            String outside = line.replaceAll("\"[^\"]*\"", "");
            assertThat(outside).as(line).doesNotContainPattern("%(here|java|jar|cache|key|archive|~1)(%|\\b)");
            assertThat(line.chars().filter(c -> c == '"').count() % 2).as(line).isZero();
        }
        for (String jump : found("goto [a-z]+", text)) {
            assertThat(text).contains("\n:" + jump.substring(5) + "\n");
        }
    }

    /** What the program ends with is what the script ends with; nothing stands between. */
    @Test
    void theExitCodeIsTheProgramsOwn() throws Exception {
        assertThat(read("rejoin.cmd")).endsWith("\n\"%java%\" %options% -jar \"%jar%\" %*\nexit /b %ERRORLEVEL%\n");
        assertThat(read("rejoin")).endsWith("\nexec \"$java\" \"$@\"\n");
    }
}
