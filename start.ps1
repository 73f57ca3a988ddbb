# Restores, builds, arranges a demo tune into out/, opens the workbench on 127.0.0.1 and prints its address.
$ErrorActionPreference = 'Stop'
Set-Location $PSScriptRoot
$env:DOTNET_CLI_TELEMETRY_OPTOUT = '1'
$env:DOTNET_NOLOGO = '1'
# Compiled ahead for this machine, so that a command answers at once; the lock files stay as they are for all machines.
dotnet publish src/Rollwright.Cli -c Release --use-current-runtime --self-contained false -p:PublishReadyToRun=true -p:NuGetLockFilePath=obj/packages.here.lock.json -o out/program --nologo -v quiet
if ($LASTEXITCODE -ne 0) { exit $LASTEXITCODE }
$tunes = Get-ChildItem data/demo/*.abc | ForEach-Object { $_.FullName }
& out/program/rollwright arrange @tunes --out-dir out --to 'tab,pdf,png,svg,musicxml,mid,wav,html,json'
if ($LASTEXITCODE -ne 0) { exit $LASTEXITCODE }
# One of them to hear, with the band: counted in, played twice.
foreach ($form in 'wav', 'opus') {
    & out/program/rollwright render out/wren-on-the-gatepost.json --band all --count-in 1 --times 2 -o "out/wren-on-the-gatepost-band.$form"
    if ($LASTEXITCODE -ne 0) { exit $LASTEXITCODE }
}
# And the lesson of one, in every form.
& out/program/rollwright lesson data/demo/wren-on-the-gatepost.abc --out-dir out/lesson
if ($LASTEXITCODE -ne 0) { exit $LASTEXITCODE }
& out/program/rollwright lesson data/demo/wren-on-the-gatepost.abc --out-dir out/lesson --only strip
if ($LASTEXITCODE -ne 0) { exit $LASTEXITCODE }
Write-Output 'The demo tunes are in out/, a lesson in out/lesson.'
& out/program/rollwright serve @args
