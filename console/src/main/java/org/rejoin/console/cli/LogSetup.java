package org.rejoin.console.cli;

import java.util.Map;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.encoder.PatternLayoutEncoder;
import ch.qos.logback.classic.spi.Configurator;
import ch.qos.logback.classic.spi.ConfiguratorRank;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.spi.ContextAwareBase;

/**
 * Diagnostics go to standard error, for standard output belongs to the commands: warnings, or all with {@code --verbose}.
 * Found by Logback as a service; said here and not in a file, because reading that file took longer than opening the
 * socket.
 */
@ConfiguratorRank(ConfiguratorRank.CUSTOM_HIGH_PRIORITY)
public final class LogSetup extends ContextAwareBase implements Configurator {

    private static final String PATTERN = "%d{HH:mm:ss.SSS} %-5level %logger{0}: %msg%n";

    /** Chatty below a warning even for diagnostics. */
    private static final Map<String, Level> OTHERS = Map.of("io.netty", Level.WARN);

    @Override
    public ExecutionStatus configure(LoggerContext context) {
        PatternLayoutEncoder encoder = new PatternLayoutEncoder();
        encoder.setContext(context);
        encoder.setPattern(PATTERN);
        encoder.start();
        ConsoleAppender<ILoggingEvent> err = new ConsoleAppender<>();
        err.setContext(context);
        err.setName("STDERR");
        err.setTarget("System.err");
        err.setEncoder(encoder);
        err.start();
        Logger root = context.getLogger(Logger.ROOT_LOGGER_NAME);
        root.setLevel(Level.toLevel(System.getProperty(VerboseCommand.LEVEL), Level.WARN));
        root.addAppender(err);
        OTHERS.forEach((name, level) -> context.getLogger(name).setLevel(level));
        return ExecutionStatus.DO_NOT_INVOKE_NEXT_IF_ANY;
    }
}
