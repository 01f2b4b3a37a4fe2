package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.IDefaultValueProvider;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/**
 * Options that a user gives each time, kept in a file in the platform's place: a mapping of commands to options, as
 * {@code listen: {port: 3001}}. What is typed wins.
 */
final class SettingsFile implements IDefaultValueProvider {

    private final Path file;
    private final Map<String, Map<String, String>> settings = new LinkedHashMap<>();

    private SettingsFile(Path file) {
        this.file = file;
    }

    /** Where the file is or would be: by the XDG base directory specification, or as macOS or Windows has it. */
    static Optional<Path> place(UnaryOperator<@Nullable String> environment, String system) {
        String os = system.toLowerCase(Locale.ROOT);
        Optional<String> home = given(environment, "HOME");
        Optional<String> folder = os.contains("windows")
                ? given(environment, "APPDATA")
                : os.contains("mac")
                        ? home.map(h -> h + "/Library/Application Support")
                        : given(environment, "XDG_CONFIG_HOME").or(() -> home.map(h -> h + "/.config"));
        return folder.map(name -> Path.of(name, "rejoin", "settings.yaml"));
    }

    /** What the environment has under a name, where it says anything. */
    static Optional<String> given(UnaryOperator<@Nullable String> environment, String name) {
        return Optional.ofNullable(environment.apply(name)).filter(value -> !value.isBlank());
    }

    /** Reads the file, if it is there; refuses in one line a command or an option that the program does not know. */
    static SettingsFile read(Path file, CommandLine program) throws BadInput {
        SettingsFile read = new SettingsFile(file);
        if (!Files.isRegularFile(file)) {
            return read;
        }
        try {
            Optional<YamlNode> root =
                    YamlText.read(YamlText.decoded(Files.readAllBytes(file))).root();
            if (root.isPresent()) {
                Map<String, CommandSpec> commands = commands(program);
                YamlMembers members = new YamlMembers(root.get(), "the settings", List.copyOf(commands.keySet()));
                for (String command : members.names()) {
                    read.take(command, members.required(command), Objects.requireNonNull(commands.get(command)));
                }
            }
        } catch (YamlException e) {
            throw new BadInput(file + ":" + e.line() + ": " + e.said());
        } catch (IOException e) {
            throw new BadInput(file + " cannot be read: " + OutputFile.reason(file, e));
        }
        return read;
    }

    private void take(String command, YamlNode node, CommandSpec spec) throws YamlException {
        List<String> options = spec.options().stream().map(SettingsFile::name).toList();
        YamlMembers members = new YamlMembers(node, command, options);
        Map<String, String> values = new LinkedHashMap<>();
        for (String option : members.names()) {
            values.put(option, String.join(",", members.texts(option)));
        }
        settings.put(command, values);
    }

    /** Commands as they are typed, without the program's own name: "listen", "feed watch". */
    private static Map<String, CommandSpec> commands(CommandLine program) {
        Map<String, CommandSpec> commands = new LinkedHashMap<>();
        program.getSubcommands().forEach((name, sub) -> {
            commands.put(name, sub.getCommandSpec());
            sub.getSubcommands().forEach((below, each) -> commands.put(name + " " + below, each.getCommandSpec()));
        });
        return commands;
    }

    private static String name(OptionSpec option) {
        return option.longestName().replaceFirst("^-+", "");
    }

    @Override
    public @Nullable String defaultValue(ArgSpec arg) {
        if (!(arg instanceof OptionSpec option) || option.command() == null) {
            return null;
        }
        String command = option.command().qualifiedName(" ").replaceFirst("^rejoin ?", "");
        return settings.getOrDefault(command, Map.of()).get(name(option));
    }

    /** " (from FILE)" of a refusal that begins with an option which nobody typed and the file has; or nothing. */
    String source(String refused, CommandSpec command, String... args) {
        OptionSpec option = command.findOption(refused.replaceFirst("(?s)[ :=].*", ""));
        boolean typed = option != null
                && Stream.of(args)
                        .anyMatch(word -> Stream.of(option.names())
                                .anyMatch(name -> word.equals(name) || word.startsWith(name + "=")));
        return option == null || typed || defaultValue(option) == null ? "" : " (from " + file + ")";
    }

    /** The file and what it says, for people. */
    List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add("# " + file + (Files.isRegularFile(file) ? "" : " (not there yet)"));
        settings.forEach((command, values) -> {
            lines.add(command + ":");
            values.forEach((option, value) -> lines.add("  " + option + ": " + value));
        });
        if (settings.isEmpty()) {
            lines.add("# no settings; for example");
            lines.add("# listen:");
            lines.add("#   port: 3001");
        }
        return lines;
    }
}
