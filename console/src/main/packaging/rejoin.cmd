@echo off
rem Starts Rejoin with the runtime beside it. What it makes for a quicker start goes into the cache folder, silently.
setlocal EnableExtensions DisableDelayedExpansion
set "here=%~dp0"
set "java=%here%runtime\bin\java.exe"
set "jar=%here%rejoin.jar"
rem A guest of the simulator: the collector without threads of its own takes the least of the machine.
set "options=-Xlog:disable -Xlog:all=error:stderr -XX:+UseSerialGC"
set "short="
for %%c in (brief debrief chart lesson help --help --version --print-settings) do if "%~1"=="%%c" set "short=yes"
if "%~1"=="" set "short=yes"
if defined short set "options=%options% -XX:TieredStopAtLevel=1"
if not defined LOCALAPPDATA goto start
if defined REJOIN_NO_CACHE goto start
set "cache=%LOCALAPPDATA%\rejoin"
if not exist "%cache%\" mkdir "%cache%" 2>nul
if not exist "%cache%\" goto start
for %%f in ("%jar%") do set "key=%%~zf-%%~tf-%here%"
set "key=%key: =_%"
set "key=%key::=_%"
set "key=%key:\=_%"
set "key=%key:/=_%"
set "key=%key:.=_%"
set "archive=%cache%\%key%.jsa"
if exist "%archive%" (
    set options=%options% "-XX:SharedArchiveFile=%archive%"
    goto start
)
rem A folder is made by one start alone, however many begin at once.
mkdir "%cache%\%key%.tried" 2>nul || goto start
start "" /b cmd /d /c call "%here%make-archive.cmd" "%cache%\%key%" >nul 2>nul <nul
:start
"%java%" %options% -jar "%jar%" %*
exit /b %ERRORLEVEL%
