@echo off
rem Starts Rejoin with the runtime beside it. What it makes for a quicker start goes into the cache folder, silently.
setlocal DisableDelayedExpansion
set "home=%~dp0"
set "java=%home%runtime\bin\java.exe"
set "jar=%home%rejoin.jar"
set "options=-Xlog:disable -Xlog:all=error:stderr"
for %%c in (brief debrief chart lesson help --help --version) do if "%~1"=="%%c" set "options=%options% -XX:TieredStopAtLevel=1 -XX:+UseSerialGC"
if not defined LOCALAPPDATA goto start
if defined REJOIN_NO_CACHE goto start
set "cache=%LOCALAPPDATA%\rejoin"
if not exist "%cache%\" mkdir "%cache%" 2>nul
if not exist "%cache%\" goto start
for %%f in ("%jar%") do set "key=%%~zf-%%~tf-%home%"
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
start "" /b cmd /d /c call "%home%make-archive.cmd" "%cache%\%key%" >nul 2>nul <nul
:start
"%java%" %options% -jar "%jar%" %*
exit /b %ERRORLEVEL%
