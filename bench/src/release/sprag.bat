@echo off
rem Starts sprag: with the runtime in this archive when there is one, else with a Java 17 runtime or newer.
setlocal
for %%i in ("%~dp0..") do set "root=%%~fi"

set "java=%root%\runtime\bin\java.exe"
if exist "%java%" goto start
set "java=%JAVA_HOME%\bin\java.exe"
if not defined JAVA_HOME set "java=none"
if exist "%java%" goto start
set "java=java.exe"
where java.exe >nul 2>nul
if not errorlevel 1 goto start
echo sprag: no Java was found. Install a Java runtime, version 17 or newer, or set JAVA_HOME to one. 1>&2
exit /b 3

:start
rem Short commands start fastest with the quick compiler; those that compute for long want all of it.
set "speed=-XX:+UseSerialGC -XX:TieredStopAtLevel=1"
if "%~1"=="run" set "speed=-XX:+UseSerialGC"
if "%~1"=="panel" set "speed=-XX:+UseSerialGC"
if "%~1"=="trip" set "speed=-XX:+UseSerialGC"
if "%~1"=="port" set "speed=-XX:+UseSerialGC"
if "%~1"=="prove" set "speed=-XX:+UseParallelGC"
if "%~1"=="margin" set "speed=-XX:+UseParallelGC"
if "%~1"=="speed" set "speed=-XX:+UseParallelGC"
if "%~1"=="campaign" set "speed=-XX:+UseParallelGC"
"%java%" %speed% --enable-native-access=ALL-UNNAMED -Djava.awt.headless=true "-Dsprag.home=%root%" -cp "%root%\bench\lib\*" sprag.bench.Sprag %*
exit /b %ERRORLEVEL%
