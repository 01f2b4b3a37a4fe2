package org.rejoin.console.cli;

import java.io.Console;
import java.lang.reflect.InvocationTargetException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/** Whether there is a terminal to draw on. */
final class Terminal {

    private Terminal() {}

    /** {@return what the terminal shows; its character set; UTF-8 where there is no terminal} */
    @SuppressWarnings("SystemConsoleNull")
    static Charset charset() {
        Console console = System.console();
        return console == null ? StandardCharsets.UTF_8 : console.charset();
    }

    /** {@return whether standard input and output are a terminal; false when either is a file or a pipe} */
    @SuppressWarnings("SystemConsoleNull") // up to Java 21 null is the answer; later ones are asked below
    static boolean attached() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            // Java 22 and later give a console for a pipe, too, and this method to tell; compiled for 17 it is not
            // known.
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException e) {
            return true;
        } catch (IllegalAccessException | InvocationTargetException e) {
            return false;
        }
    }
}
