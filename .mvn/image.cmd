@echo off
rem Packs the program with its own runtime, for this system, and checks what was packed: console\target\rejoin-*.zip
cd /d "%~dp0.." && call mvn -q -B -Pimage -DskipTests package
exit /b %ERRORLEVEL%
