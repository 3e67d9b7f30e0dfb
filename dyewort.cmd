@echo off
rem Builds a release once when there is none, or when asked with DYEWORT_BUILD=1, then runs the program.
setlocal
set here=%~dp0
set program=%here%artifacts\bin\Dyewort.Cli\release\dyewort.dll
set stale=0
if not exist "%program%" set stale=1
if "%DYEWORT_BUILD%"=="1" set stale=1
if "%stale%"=="0" (
  powershell -NoProfile -Command "$built=(Get-Item '%program%').LastWriteTimeUtc; if (Get-ChildItem '%here%src' -Recurse -File -Include *.cs,*.razor,*.csproj,*.css,*.js,*.csv | Where-Object { $_.LastWriteTimeUtc -gt $built } | Select-Object -First 1) { exit 1 }"
  if errorlevel 1 set stale=1
)
if "%stale%"=="1" (
  echo Building Dyewort ^(once; the first time takes a few minutes^) ... 1>&2
  dotnet build "%here%src\Dyewort.Cli\Dyewort.Cli.csproj" -c Release -v quiet -nologo 1>&2 || exit /b 1
)
dotnet "%program%" %*
