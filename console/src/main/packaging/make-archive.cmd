@echo off
rem Makes the archive of classes for a quicker start; called by rejoin.cmd once for each copy of the program.
setlocal
set "here=%~dp0"
"%here%runtime\bin\java.exe" -Xshare:off "-XX:DumpLoadedClassList=%~1.list" -jar "%here%rejoin.jar" fly --hz 1 --json
if errorlevel 1 goto end
"%here%runtime\bin\java.exe" -Xshare:dump "-XX:SharedClassListFile=%~1.list" "-XX:SharedArchiveFile=%~1.part" -jar "%here%rejoin.jar"
if errorlevel 1 goto end
move /y "%~1.part" "%~1.jsa"
:end
del "%~1.list" "%~1.part"
