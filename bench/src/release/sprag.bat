@echo off
rem Starts sprag: with the runtime in this archive when there is one, else with a Java 17 runtime or newer.
setlocal
for %%i in ("%~dp0..") do set "root=%%~fi"

set "java=%root%\runtime\bin\java.exe"
if exist "%java%" goto start
set "java=%JAVA_HOME%\bin\java.exe"
if not defined JAVA_HOME set "java=none"
if exist "%java%" goto version
for %%i in (java.exe) do set "java=%%~$PATH:i"
if exist "%java%" goto version
echo sprag: no Java was found. Install a Java runtime, version 17 or newer, or set JAVA_HOME to one. 1>&2
exit /b 3

:version
rem The file "release" of its home tells the version without starting it. A Java without that file is asked.
set "version="
for %%i in ("%java%") do set "release=%%~dpi..\release"
if not exist "%release%" goto ask
for /f "usebackq tokens=1,2 delims==" %%k in ("%release%") do if "%%k"=="JAVA_VERSION" set "version=%%~l"
if defined version goto compare
:ask
for %%i in ("%java%") do pushd "%%~dpi"
for /f "tokens=3" %%v in ('java.exe -XshowSettings:properties -version 2^>^&1 ^| findstr /c:"java.specification.version ="') do set "version=%%v"
popd
if not defined version goto start
:compare
for /f "delims=.-+" %%m in ("%version%") do if %%m LSS 17 goto old
goto start
:old
echo sprag: %java% is Java %version%; sprag needs 17 or newer. Install a Java runtime, version 17 or newer, or set JAVA_HOME to one. 1>&2
exit /b 3

:start
rem Short commands start fastest with the quick compiler; those that compute for long want all of it.
set "speed=-XX:+UseSerialGC -XX:TieredStopAtLevel=1"
if "%~1"=="run" set "speed=-XX:+UseSerialGC"
if "%~1"=="panel" set "speed=-XX:+UseSerialGC"
if "%~1"=="trip" set "speed=-XX:+UseSerialGC"
if "%~1"=="port" set "speed=-XX:+UseSerialGC"
if "%~1"=="margin" set "speed=-XX:+UseParallelGC"
if "%~1"=="speed" set "speed=-XX:+UseParallelGC"
if "%~1"=="campaign" set "speed=-XX:+UseParallelGC"
"%java%" %speed% --enable-native-access=ALL-UNNAMED -Djava.awt.headless=true "-Dsprag.home=%root%" -cp "%root%\bench\lib\*" sprag.bench.Sprag %*
exit /b %ERRORLEVEL%
